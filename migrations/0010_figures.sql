-- What the owner's look back is found by. The sums of jobs are kept by triggers only; what is kept of past days is a copy
-- of what the records come to, and is thrown away as soon as what it is made of changes. The doctor works both out again.

CREATE INDEX stage_work_long ON stage_work (end_ms, start_ms) WHERE end_ms - start_ms > 86400000;
CREATE INDEX job_presence ON job (arrived_ms, collected_ms, ended_ms) WHERE arrived_ms IS NOT NULL;
CREATE INDEX job_collected ON job (collected_ms, redo_of_job_id, id, number, purpose, arrived_ms) WHERE collected_ms IS NOT NULL;
CREATE INDEX job_redo ON job (redo_of_job_id) WHERE redo_of_job_id IS NOT NULL;
CREATE INDEX stage_work_ended ON stage_work (end_ms, start_ms, stage_id, person_id, bay_id);
CREATE INDEX job_stage_finished ON job_stage (done_ms, id, job_id, kind, p50_min, p80_min) WHERE state = 'done';

-- What past days came to, so that ten years are not worked out anew with each question. The program writes a day in when
-- it is over and nobody waits (core/figures/commands/keepDays.ts); the triggers below say which days no longer hold. A day
-- that is not kept, or no longer holds, is worked out from the records: the answer is the same.

CREATE TABLE kept_day (                   -- days that are kept; owned by core/figures, like the three after it
  day       TEXT PRIMARY KEY,
  start_min INTEGER NOT NULL,             -- as the shop's zone has the day
  end_min   INTEGER NOT NULL CHECK (end_min > start_min)
) STRICT, WITHOUT ROWID;

CREATE TABLE kept_hours (                 -- minutes of a bay or a technician; no row = all nothing
  day          TEXT NOT NULL,
  place        TEXT NOT NULL,             -- id of the bay or of the person
  attended_min INTEGER NOT NULL CHECK (attended_min >= 0),
  cure_min     INTEGER NOT NULL CHECK (cure_min >= 0),
  waiting_min  INTEGER NOT NULL CHECK (waiting_min >= 0),
  blocked_min  INTEGER NOT NULL CHECK (blocked_min >= 0),
  idle_min     INTEGER NOT NULL CHECK (idle_min >= 0), -- with the four before it the minutes that were available
  worked_ms    INTEGER NOT NULL CHECK (worked_ms >= 0), -- all recorded work of the person, outside the shift too
  PRIMARY KEY (day, place)
) STRICT, WITHOUT ROWID;

CREATE TABLE kept_honesty (               -- stages finished on the day, estimated against actual, by what they have in common
  day           TEXT NOT NULL,
  sorted_by     TEXT NOT NULL CHECK (sorted_by IN ('stage', 'technician', 'hardness', 'condition')),
  key           TEXT NOT NULL,
  finished      INTEGER NOT NULL CHECK (finished > 0),
  stages        INTEGER NOT NULL CHECK (stages BETWEEN 0 AND finished), -- those with an estimate and with recorded time
  estimated_min INTEGER NOT NULL,
  actual_ms     INTEGER NOT NULL,
  within        INTEGER NOT NULL CHECK (within BETWEEN 0 AND stages), -- not longer than their P80
  over_ms       INTEGER NOT NULL CHECK (over_ms >= 0), -- all that was longer than the P80
  under_ms      INTEGER NOT NULL CHECK (under_ms >= 0), -- all that was shorter
  PRIMARY KEY (day, sorted_by, key)
) STRICT, WITHOUT ROWID;

CREATE TABLE kept_furthest (              -- the stages of a day furthest from their estimate
  day      TEXT NOT NULL,
  stage_id TEXT NOT NULL,
  done_ms  INTEGER NOT NULL,
  far      REAL NOT NULL CHECK (far >= 0), -- |log(actual / P50)|
  PRIMARY KEY (day, stage_id)
) STRICT, WITHOUT ROWID;

CREATE TABLE kept_stale (                 -- what has changed since the days were kept; emptied when the days are taken out
  job_id   TEXT PRIMARY KEY,              -- '' = what the shop has set
  from_min INTEGER NOT NULL,              -- what the change took away reached from here,
  to_min   INTEGER NOT NULL               -- to here; all that the job still has on record counts beside it
) STRICT, WITHOUT ROWID;

-- One line for each job, the widest stretch of all changes to it. ±1,000,000,000 min are the far past and future.
CREATE VIEW kept_mark AS SELECT job_id, from_min, to_min FROM kept_stale;
CREATE TRIGGER kept_mark_widen INSTEAD OF INSERT ON kept_mark BEGIN
  INSERT INTO kept_stale (job_id, from_min, to_min) VALUES (NEW.job_id, NEW.from_min, NEW.to_min)
  ON CONFLICT (job_id) DO UPDATE SET from_min = min(from_min, excluded.from_min), to_min = max(to_min, excluded.to_min)
  WHERE excluded.from_min < from_min OR excluded.to_min > to_min;
END;

-- What a job has on record: work, stages, where the car stood, and what was found on its paint.
CREATE TRIGGER kept_work_insert AFTER INSERT ON stage_work BEGIN
  INSERT INTO kept_mark SELECT job_id, 1000000000, -1000000000 FROM job_stage WHERE id = NEW.stage_id;
END;
CREATE TRIGGER kept_work_delete AFTER DELETE ON stage_work BEGIN
  INSERT INTO kept_mark SELECT job_id, OLD.start_ms / 60000, coalesce(OLD.end_ms / 60000 + 1, 1000000000) FROM job_stage WHERE id = OLD.stage_id;
END;
CREATE TRIGGER kept_work_update AFTER UPDATE ON stage_work BEGIN
  INSERT INTO kept_mark SELECT job_id, OLD.start_ms / 60000, coalesce(OLD.end_ms / 60000 + 1, 1000000000) FROM job_stage WHERE id = OLD.stage_id;
  INSERT INTO kept_mark SELECT job_id, 1000000000, -1000000000 FROM job_stage WHERE id = NEW.stage_id;
END;
CREATE TRIGGER kept_stage_insert AFTER INSERT ON job_stage BEGIN
  INSERT INTO kept_mark VALUES (NEW.job_id, 1000000000, -1000000000);
END;
CREATE TRIGGER kept_stage_update AFTER UPDATE OF job_id, kind, state, p50_min, p80_min, dwell_min, crew, started_ms, done_ms ON job_stage BEGIN
  INSERT INTO kept_mark VALUES (OLD.job_id, coalesce(OLD.started_ms, OLD.done_ms, 1000000000 * 60000) / 60000,
    CASE WHEN OLD.done_ms IS NOT NULL THEN OLD.done_ms / 60000 + OLD.dwell_min + 1
      WHEN OLD.started_ms IS NULL THEN -1000000000
      WHEN OLD.state = 'dropped' THEN OLD.started_ms / 60000 + OLD.p50_min + OLD.dwell_min + 1 ELSE 1000000000 END);
  INSERT INTO kept_mark VALUES (NEW.job_id, 1000000000, -1000000000);
END;
CREATE TRIGGER kept_stage_delete AFTER DELETE ON job_stage BEGIN
  INSERT INTO kept_mark VALUES (OLD.job_id, coalesce(OLD.started_ms, OLD.done_ms, 1000000000 * 60000) / 60000,
    CASE WHEN OLD.done_ms IS NOT NULL THEN OLD.done_ms / 60000 + OLD.dwell_min + 1
      WHEN OLD.started_ms IS NULL THEN -1000000000
      WHEN OLD.state = 'dropped' THEN OLD.started_ms / 60000 + OLD.p50_min + OLD.dwell_min + 1 ELSE 1000000000 END);
END;
CREATE TRIGGER kept_job_update AFTER UPDATE OF vehicle_id, arrived_ms, collected_ms, ended_ms ON job BEGIN
  INSERT INTO kept_mark VALUES (OLD.id, coalesce(OLD.arrived_ms / 60000, 1000000000),
    iif(OLD.arrived_ms IS NULL, -1000000000, coalesce(coalesce(OLD.collected_ms, OLD.ended_ms) / 60000 + 1, 1000000000)));
END;
CREATE TRIGGER kept_stay_insert AFTER INSERT ON stay BEGIN
  INSERT INTO kept_mark VALUES (NEW.job_id, 1000000000, -1000000000);
END;
CREATE TRIGGER kept_stay_update AFTER UPDATE ON stay BEGIN
  INSERT INTO kept_mark VALUES (NEW.job_id, 1000000000, -1000000000);
END;
CREATE TRIGGER kept_stay_delete AFTER DELETE ON stay BEGIN
  INSERT INTO kept_mark VALUES (OLD.job_id, 1000000000, -1000000000);
END;
CREATE TRIGGER kept_placement_insert AFTER INSERT ON placement BEGIN
  INSERT INTO kept_mark VALUES (NEW.job_id, 1000000000, -1000000000);
END;
CREATE TRIGGER kept_placement_delete AFTER DELETE ON placement BEGIN
  INSERT INTO kept_mark VALUES (OLD.job_id, 1000000000, -1000000000);
END;
CREATE TRIGGER kept_finding_insert AFTER INSERT ON finding BEGIN
  INSERT INTO kept_mark SELECT job_id, 1000000000, -1000000000 FROM inspection WHERE id = NEW.inspection_id;
END;
CREATE TRIGGER kept_finding_update AFTER UPDATE ON finding BEGIN
  INSERT INTO kept_mark SELECT job_id, 1000000000, -1000000000 FROM inspection WHERE id = NEW.inspection_id;
END;
CREATE TRIGGER kept_hardness AFTER UPDATE OF hardness ON vehicle
WHEN OLD.hardness <> NEW.hardness BEGIN
  INSERT INTO kept_mark SELECT id, 1000000000, -1000000000 FROM job WHERE vehicle_id = NEW.id;
END;

-- What the shop has set: dated things reach as far as their dates, in any zone; the rest holds for every day there was.
CREATE TRIGGER kept_closure_insert AFTER INSERT ON closure BEGIN
  INSERT INTO kept_mark VALUES ('', unixepoch(NEW.from_day) / 60 - 1440, unixepoch(NEW.to_day) / 60 + 2880);
END;
CREATE TRIGGER kept_closure_update AFTER UPDATE ON closure BEGIN
  INSERT INTO kept_mark VALUES ('', unixepoch(OLD.from_day) / 60 - 1440, unixepoch(OLD.to_day) / 60 + 2880);
  INSERT INTO kept_mark VALUES ('', unixepoch(NEW.from_day) / 60 - 1440, unixepoch(NEW.to_day) / 60 + 2880);
END;
CREATE TRIGGER kept_closure_delete AFTER DELETE ON closure BEGIN
  INSERT INTO kept_mark VALUES ('', unixepoch(OLD.from_day) / 60 - 1440, unixepoch(OLD.to_day) / 60 + 2880);
END;
CREATE TRIGGER kept_absence_insert AFTER INSERT ON absence BEGIN
  INSERT INTO kept_mark VALUES ('', NEW.start_min, NEW.end_min);
END;
CREATE TRIGGER kept_absence_update AFTER UPDATE ON absence BEGIN
  INSERT INTO kept_mark VALUES ('', OLD.start_min, OLD.end_min);
  INSERT INTO kept_mark VALUES ('', NEW.start_min, NEW.end_min);
END;
CREATE TRIGGER kept_absence_delete AFTER DELETE ON absence BEGIN
  INSERT INTO kept_mark VALUES ('', OLD.start_min, OLD.end_min);
END;
CREATE TRIGGER kept_opening_hours_insert AFTER INSERT ON opening_hours BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;
CREATE TRIGGER kept_opening_hours_update AFTER UPDATE ON opening_hours BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;
CREATE TRIGGER kept_opening_hours_delete AFTER DELETE ON opening_hours BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;
CREATE TRIGGER kept_shift_insert AFTER INSERT ON shift BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;
CREATE TRIGGER kept_shift_update AFTER UPDATE ON shift BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;
CREATE TRIGGER kept_shift_delete AFTER DELETE ON shift BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;
CREATE TRIGGER kept_bay_insert AFTER INSERT ON bay BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;
CREATE TRIGGER kept_bay_update AFTER UPDATE ON bay BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;
CREATE TRIGGER kept_bay_delete AFTER DELETE ON bay BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;
CREATE TRIGGER kept_technician_insert AFTER INSERT ON technician BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;
CREATE TRIGGER kept_technician_delete AFTER DELETE ON technician BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;
CREATE TRIGGER kept_person_update AFTER UPDATE OF started_day, ended_day ON person
WHEN OLD.started_day <> NEW.started_day OR OLD.ended_day IS NOT NEW.ended_day BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;
CREATE TRIGGER kept_zone AFTER UPDATE OF zone ON shop
WHEN OLD.zone <> NEW.zone BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;

CREATE TABLE job_sum (                    -- what a job brought and took so far
  job_id      TEXT PRIMARY KEY REFERENCES job (id),
  net_minor   INTEGER NOT NULL,           -- before tax: its issued documents and its part of those with other jobs, less taxed vouchers that came off
  drawn_minor INTEGER NOT NULL,           -- book value of what the ledger of stock gave it
  uses        TEXT NOT NULL DEFAULT '{}' CHECK (json_valid(uses)) -- of single pads and towels by item: {itemId: uses}; many jobs have the same
) STRICT, WITHOUT ROWID;
CREATE TRIGGER invoice_tax_sum AFTER INSERT ON invoice_tax BEGIN
  INSERT INTO job_sum (job_id, net_minor, drawn_minor)
  SELECT i.job_id, NEW.net_minor, 0 FROM invoice i WHERE i.id = NEW.invoice_id AND i.job_id IS NOT NULL
  ON CONFLICT (job_id) DO UPDATE SET net_minor = net_minor + excluded.net_minor;
END;
CREATE TRIGGER collective_net_sum AFTER INSERT ON collective_net BEGIN
  INSERT INTO job_sum (job_id, net_minor, drawn_minor) VALUES (NEW.job_id, NEW.net_minor, 0)
  ON CONFLICT (job_id) DO UPDATE SET net_minor = net_minor + excluded.net_minor;
END;
CREATE TRIGGER voucher_entry_sum AFTER INSERT ON voucher_entry WHEN NEW.invoice_id IS NOT NULL BEGIN
  INSERT INTO job_sum (job_id, net_minor, drawn_minor)
  SELECT i.job_id, -NEW.net_minor, 0 FROM invoice i WHERE i.id = NEW.invoice_id AND i.job_id IS NOT NULL
  ON CONFLICT (job_id) DO UPDATE SET net_minor = net_minor + excluded.net_minor;
END;
CREATE TRIGGER stock_movement_sum AFTER INSERT ON stock_movement WHEN NEW.job_id IS NOT NULL BEGIN
  INSERT INTO job_sum (job_id, net_minor, drawn_minor) VALUES (NEW.job_id, 0, -NEW.value_minor)
  ON CONFLICT (job_id) DO UPDATE SET drawn_minor = drawn_minor + excluded.drawn_minor;
END;

CREATE TRIGGER pad_event_sum AFTER INSERT ON pad_event WHEN NEW.used = 1 AND NEW.job_id IS NOT NULL BEGIN
  INSERT INTO job_sum (job_id, net_minor, drawn_minor) VALUES (NEW.job_id, 0, 0) ON CONFLICT (job_id) DO NOTHING;
  UPDATE job_sum SET uses = (SELECT json_set(uses, path, coalesce(json_extract(uses, path), 0) + NEW.pieces)
      FROM (SELECT '$."' || b.item_id || '"' AS path FROM pad_batch b WHERE b.id = NEW.batch_id))
    WHERE job_id = NEW.job_id;
END;

CREATE TABLE job_hand (                   -- time that somebody worked on a job, of stretches that have ended
  job_id    TEXT NOT NULL REFERENCES job (id),
  person_id TEXT NOT NULL REFERENCES person (id),
  worked_ms INTEGER NOT NULL CHECK (worked_ms >= 0),
  first_ms  INTEGER NOT NULL,              -- no stretch began before, or after last_ms; corrected ones may lie within
  last_ms   INTEGER NOT NULL CHECK (last_ms >= first_ms),
  PRIMARY KEY (job_id, person_id)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER stage_work_hand AFTER INSERT ON stage_work WHEN NEW.end_ms IS NOT NULL BEGIN
  INSERT INTO job_hand (job_id, person_id, worked_ms, first_ms, last_ms)
  SELECT s.job_id, NEW.person_id, NEW.end_ms - NEW.start_ms, NEW.start_ms, NEW.start_ms FROM job_stage s WHERE s.id = NEW.stage_id
  ON CONFLICT (job_id, person_id) DO UPDATE SET worked_ms = worked_ms + excluded.worked_ms,
    first_ms = min(first_ms, excluded.first_ms), last_ms = max(last_ms, excluded.last_ms);
END;
CREATE TRIGGER stage_work_hand_changed AFTER UPDATE ON stage_work BEGIN
  UPDATE job_hand SET worked_ms = worked_ms - (OLD.end_ms - OLD.start_ms) WHERE OLD.end_ms IS NOT NULL
    AND person_id = OLD.person_id AND job_id = (SELECT s.job_id FROM job_stage s WHERE s.id = OLD.stage_id);
  INSERT INTO job_hand (job_id, person_id, worked_ms, first_ms, last_ms)
  SELECT s.job_id, NEW.person_id, NEW.end_ms - NEW.start_ms, NEW.start_ms, NEW.start_ms FROM job_stage s WHERE s.id = NEW.stage_id AND NEW.end_ms IS NOT NULL
  ON CONFLICT (job_id, person_id) DO UPDATE SET worked_ms = worked_ms + excluded.worked_ms,
    first_ms = min(first_ms, excluded.first_ms), last_ms = max(last_ms, excluded.last_ms);
END;
CREATE TRIGGER stage_work_hand_gone AFTER DELETE ON stage_work WHEN OLD.end_ms IS NOT NULL BEGIN
  UPDATE job_hand SET worked_ms = worked_ms - (OLD.end_ms - OLD.start_ms)
  WHERE person_id = OLD.person_id AND job_id = (SELECT s.job_id FROM job_stage s WHERE s.id = OLD.stage_id);
END;
