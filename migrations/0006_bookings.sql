-- What is written down about a job while it runs: the car as it came and went, panels done, notes, named overrides.

CREATE TABLE car_record (                 -- owned by core/bookings; a correction is a further record
  id               TEXT PRIMARY KEY,
  job_id           TEXT NOT NULL REFERENCES job (id),
  kind             TEXT NOT NULL CHECK (kind IN ('arrival', 'handover')),
  at_ms            INTEGER NOT NULL,
  late_min         INTEGER NOT NULL CHECK (late_min >= 0), -- after the agreed drop-off, 0 = in time or none agreed
  mileage          INTEGER CHECK (mileage BETWEEN 0 AND 9999999), -- null = not read
  mileage_unit     TEXT NOT NULL CHECK (mileage_unit IN ('km', 'mi')),
  key_count        INTEGER NOT NULL CHECK (key_count BETWEEN 0 AND 20),
  belongings       TEXT NOT NULL,           -- left in the car, '' = none
  damage           TEXT NOT NULL CHECK (json_valid(damage)), -- [{panel, note}] there before any work
  pictures_record  INTEGER NOT NULL CHECK (pictures_record IN (0, 1)),  -- may be taken for the record
  pictures_publish INTEGER NOT NULL CHECK (pictures_publish IN (0, 1)), -- may be shown to others
  agreed_by        TEXT NOT NULL CHECK (length(agreed_by) BETWEEN 1 AND 120),
  agreed_way       TEXT NOT NULL CHECK (agreed_way IN ('signature', 'printedForm', 'spoken')),
  strokes          TEXT NOT NULL CHECK (json_valid(strokes)), -- signature: lines of points, each 0..1000 of the field
  note             TEXT NOT NULL,
  locale           TEXT NOT NULL DEFAULT '', -- BCP 47 tag its paper is written in, '' = the shop's
  person_id        TEXT REFERENCES person (id), -- who wrote it down
  CHECK (pictures_publish = 0 OR pictures_record = 1)
) STRICT;
CREATE INDEX car_record_job ON car_record (job_id, at_ms);
CREATE TRIGGER car_record_no_update BEFORE UPDATE OF id, job_id, kind, at_ms, late_min, mileage, mileage_unit, key_count,
  damage, pictures_record, pictures_publish, agreed_way, locale, person_id ON car_record
  BEGIN SELECT RAISE(ABORT, 'car records are kept as written'); END; -- names, belongings, strokes and the note may be erased
CREATE TRIGGER car_record_note_kept BEFORE UPDATE OF note ON car_record WHEN NEW.note NOT IN ('', OLD.note)
  BEGIN SELECT RAISE(ABORT, 'car records are kept as written'); END;
CREATE TRIGGER car_record_no_delete BEFORE DELETE ON car_record
  BEGIN SELECT RAISE(ABORT, 'car records are kept'); END;

CREATE TABLE stage_panel (                -- panels finished within a stage; owned by core/bookings
  stage_id  TEXT NOT NULL REFERENCES job_stage (id),
  panel     TEXT NOT NULL,
  done_ms   INTEGER NOT NULL,
  person_id TEXT REFERENCES person (id),
  PRIMARY KEY (stage_id, panel)
) STRICT;

CREATE TABLE stage_note (                 -- owned by core/bookings, append-only
  id        TEXT PRIMARY KEY,
  stage_id  TEXT NOT NULL REFERENCES job_stage (id),
  at_ms     INTEGER NOT NULL,
  person_id TEXT REFERENCES person (id),
  note      TEXT NOT NULL CHECK (length(note) BETWEEN 1 AND 1000)
) STRICT;
CREATE INDEX stage_note_stage ON stage_note (stage_id, at_ms);
CREATE TRIGGER stage_note_no_update BEFORE UPDATE ON stage_note BEGIN SELECT RAISE(ABORT, 'stage notes are append-only'); END;
CREATE TRIGGER stage_note_no_delete BEFORE DELETE ON stage_note BEGIN SELECT RAISE(ABORT, 'stage notes are append-only'); END;

CREATE TABLE job_override (               -- a rule of the trade set aside by a named person; owned by core/bookings, append-only
  id        TEXT PRIMARY KEY,
  job_id    TEXT NOT NULL REFERENCES job (id),
  stage_id  TEXT NOT NULL REFERENCES job_stage (id),
  rule      TEXT NOT NULL CHECK (rule IN ('clayBeforeMachine', 'decontaminateBeforeMachine', 'sandBeforeCut', 'cutBeforeRefine', 'washBeforeTouch', 'decontaminateBeforeClay', 'machineBeforeProtect', 'wipeBeforeProtect', 'workBeforeCheck', 'cureUntouched')),
  panels    TEXT NOT NULL CHECK (json_valid(panels)),
  person_id TEXT NOT NULL REFERENCES person (id),
  reason    TEXT NOT NULL CHECK (length(reason) BETWEEN 3 AND 400),
  at_ms     INTEGER NOT NULL
) STRICT;
CREATE INDEX job_override_job ON job_override (job_id);
CREATE TRIGGER job_override_no_update BEFORE UPDATE ON job_override BEGIN SELECT RAISE(ABORT, 'overrides are append-only'); END;
CREATE TRIGGER job_override_no_delete BEFORE DELETE ON job_override BEGIN SELECT RAISE(ABORT, 'overrides are append-only'); END;

CREATE TABLE stage_share (                -- what was done of a stage when the job was stopped half way; owned by core/bookings
  stage_id  TEXT PRIMARY KEY REFERENCES job_stage (id),
  share_ppm INTEGER NOT NULL CHECK (share_ppm BETWEEN 0 AND 1000000),
  basis     TEXT NOT NULL CHECK (basis IN ('named', 'whole', 'panels', 'time', 'nothing'))
) STRICT;
