-- What the owner's look back is found by: nothing of its own is kept, every figure is worked out from the records.

CREATE INDEX job_presence ON job (arrived_ms, collected_ms, ended_ms) WHERE arrived_ms IS NOT NULL;
CREATE INDEX job_collected ON job (collected_ms) WHERE collected_ms IS NOT NULL;
CREATE INDEX stage_work_ended ON stage_work (end_ms, start_ms, stage_id, person_id);
CREATE INDEX job_stage_finished ON job_stage (done_ms, id, job_id, kind, p50_min, p80_min) WHERE state = 'done';
