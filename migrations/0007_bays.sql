-- When the shop is open, who can do what when, and the plan of the bays. The plan is guarded against overlaps;
-- what really happened is recorded by bookings and never refused here.

CREATE TABLE opening_hours (              -- owned by core/bays; several spans a day are allowed
  weekday   INTEGER NOT NULL CHECK (weekday BETWEEN 1 AND 7), -- ISO 8601, 1 = Monday
  kind      TEXT NOT NULL CHECK (kind IN ('shop', 'desk')), -- work and moves | handing cars over
  open_min  INTEGER NOT NULL CHECK (open_min BETWEEN 0 AND 1439), -- wall-clock minutes since midnight
  close_min INTEGER NOT NULL CHECK (close_min > open_min AND close_min <= 1440),
  PRIMARY KEY (kind, weekday, open_min)
) STRICT;

CREATE TABLE closure (                    -- owned by core/bays
  id       TEXT PRIMARY KEY,
  from_day TEXT NOT NULL,
  to_day   TEXT NOT NULL CHECK (to_day >= from_day), -- included
  bay_id   TEXT REFERENCES bay (id),      -- null = the whole shop: nobody works, cars may stand
  reason   TEXT NOT NULL
) STRICT;

CREATE TABLE stage_gap (                  -- time between a stage and the next of the same car; owned by core/bays
  stage     TEXT PRIMARY KEY CHECK (stage IN ('inspection','wash','decontaminate','clay','mask','sand','cut','refine','panelWipe','protect','cure','interior','finalCheck','handover')),
  least_min INTEGER NOT NULL CHECK (least_min >= 0), -- minutes from its end, unattended time included
  most_min  INTEGER CHECK (most_min >= least_min)    -- null = the next may begin at any time
) STRICT;

CREATE TABLE dust_pair (                  -- bays in each other's dust; both null = all of them; owned by core/bays
  id    TEXT PRIMARY KEY,
  bay_a TEXT REFERENCES bay (id),
  bay_b TEXT REFERENCES bay (id),
  CHECK ((bay_a IS NULL) = (bay_b IS NULL)),
  CHECK (bay_a < bay_b),                  -- each pair once
  UNIQUE (bay_a, bay_b)
) STRICT;

CREATE TABLE technician (                 -- what a person can do on the board; owned by core/bays
  person_id TEXT PRIMARY KEY REFERENCES person (id),
  skills    TEXT NOT NULL CHECK (json_valid(skills)),
  speed_ppm INTEGER NOT NULL CHECK (speed_ppm BETWEEN 200000 AND 3000000), -- 1000000 = the estimate's pace
  revision  INTEGER NOT NULL DEFAULT 1
) STRICT;

CREATE TABLE shift (                      -- weekly; a break is the gap between two rows; owned by core/bays
  person_id TEXT NOT NULL REFERENCES person (id),
  weekday   INTEGER NOT NULL CHECK (weekday BETWEEN 1 AND 7),
  start_min INTEGER NOT NULL CHECK (start_min BETWEEN 0 AND 1439), -- wall-clock minutes since midnight
  end_min   INTEGER NOT NULL CHECK (end_min > start_min AND end_min <= 1440),
  PRIMARY KEY (person_id, weekday, start_min)
) STRICT;

CREATE TABLE absence (                    -- owned by core/bays
  id        TEXT PRIMARY KEY,
  person_id TEXT NOT NULL REFERENCES person (id),
  start_min INTEGER NOT NULL,
  end_min   INTEGER NOT NULL CHECK (end_min > start_min),
  reason    TEXT NOT NULL
) STRICT;
CREATE INDEX absence_person ON absence (person_id, start_min);

CREATE TABLE stay (                       -- a car planned to stand in a place, nights included; owned by core/bays
  id         INTEGER PRIMARY KEY,
  job_id     TEXT NOT NULL REFERENCES job (id),
  bay_id     TEXT NOT NULL REFERENCES bay (id),
  arrive_min INTEGER NOT NULL,
  leave_min  INTEGER NOT NULL CHECK (leave_min > arrive_min)
) STRICT;
CREATE INDEX stay_job ON stay (job_id, arrive_min, leave_min, bay_id);
CREATE INDEX stay_bay ON stay (bay_id, leave_min);
CREATE INDEX stay_leave ON stay (leave_min);

CREATE TABLE placement (                  -- work planned on a stage, one row per person; owned by core/bays
  id            INTEGER PRIMARY KEY,
  job_id        TEXT NOT NULL REFERENCES job (id),
  stage_id      TEXT NOT NULL REFERENCES job_stage (id),
  bay_id        TEXT NOT NULL REFERENCES bay (id),
  person_id     TEXT REFERENCES person (id), -- null = nobody attends
  start_min     INTEGER NOT NULL,
  end_min       INTEGER NOT NULL CHECK (end_min >= start_min), -- the person is held until here
  dwell_end_min INTEGER NOT NULL CHECK (dwell_end_min >= end_min) -- the place is held until here
) STRICT;
CREATE INDEX placement_job ON placement (job_id);
CREATE INDEX placement_stage ON placement (stage_id);
CREATE INDEX placement_person ON placement (person_id, end_min);

CREATE TABLE plan_state (                 -- counts changes of the plan, so that a stale offer is noticed; owned by core/bays
  id       INTEGER PRIMARY KEY CHECK (id = 1),
  revision INTEGER NOT NULL
) STRICT;
INSERT INTO plan_state (id, revision) VALUES (1, 1);

CREATE TABLE conflict_seen (              -- conflicts somebody has taken note of; owned by core/bays
  conflict_key TEXT PRIMARY KEY,
  person_id    TEXT REFERENCES person (id),
  seen_ms      INTEGER NOT NULL
) STRICT;

-- A plan is changed by lifting every row concerned and inserting the new ones, in one transaction: an UPDATE would
-- make a swap impossible, because row triggers cannot wait for the end of the transaction. A stay that is only cut
-- needs no new room, and is left to be cut where it stands. How many cars a yard holds is counted by the program, as they
-- stand at the moment: a car that runs over elsewhere leaves room there that its kept plan does not show.
CREATE TRIGGER stay_only_cut BEFORE UPDATE ON stay
WHEN NEW.id <> OLD.id OR NEW.job_id <> OLD.job_id OR NEW.bay_id <> OLD.bay_id
  OR NEW.arrive_min < OLD.arrive_min OR NEW.leave_min > OLD.leave_min
BEGIN SELECT RAISE(ABORT, 'stays are cut, or lifted and set again'); END;
CREATE TRIGGER placement_no_update BEFORE UPDATE ON placement
  BEGIN SELECT RAISE(ABORT, 'placements are lifted and set again'); END;
CREATE TRIGGER stay_no_overlap BEFORE INSERT ON stay
WHEN (SELECT capacity FROM bay WHERE id = NEW.bay_id) = 1 AND EXISTS (
  SELECT 1 FROM stay WHERE bay_id = NEW.bay_id AND arrive_min < NEW.leave_min AND leave_min > NEW.arrive_min)
BEGIN SELECT RAISE(ABORT, 'two cars in one bay'); END;
CREATE TRIGGER stay_one_place BEFORE INSERT ON stay
WHEN EXISTS (
  SELECT 1 FROM stay WHERE job_id = NEW.job_id AND arrive_min < NEW.leave_min AND leave_min > NEW.arrive_min)
BEGIN SELECT RAISE(ABORT, 'one car in two places'); END;
CREATE TRIGGER placement_no_overlap BEFORE INSERT ON placement
WHEN NEW.person_id IS NOT NULL AND EXISTS (
  SELECT 1 FROM placement WHERE person_id = NEW.person_id AND start_min < NEW.end_min AND end_min > NEW.start_min)
BEGIN SELECT RAISE(ABORT, 'one person at two cars'); END;
