-- Paint: what was seen, felt and read on a vehicle, what a test spot showed, and what was taken off. Owned by core/paint.
-- Film is in tenths of a micrometre of the whole stack; a gauge never shows clear coat alone.

CREATE TABLE inspection (                 -- one look at the paint per job, before and after work
  id         TEXT PRIMARY KEY,
  job_id     TEXT NOT NULL UNIQUE REFERENCES job (id),
  vehicle_id TEXT NOT NULL REFERENCES vehicle (id),
  person_id  TEXT REFERENCES person (id), -- who began it, null = the program
  started_ms INTEGER NOT NULL,
  revision   INTEGER NOT NULL DEFAULT 1
) STRICT;
CREATE INDEX inspection_vehicle ON inspection (vehicle_id, started_ms);

CREATE TABLE panel_state (                -- what one panel is made of and feels like; no row = the usual
  inspection_id   TEXT NOT NULL REFERENCES inspection (id),
  panel           TEXT NOT NULL,
  substrate       TEXT NOT NULL CHECK (substrate IN ('steel', 'aluminium', 'plastic', 'composite')),
  felt            TEXT NOT NULL CHECK (felt IN ('none', 'light', 'moderate', 'heavy')), -- grit felt through a bag
  override_person TEXT NOT NULL DEFAULT '', -- who takes a film rule on, '' = nobody
  override_reason TEXT NOT NULL DEFAULT '',
  PRIMARY KEY (inspection_id, panel),
  CHECK ((override_person = '') = (override_reason = ''))
) STRICT;

CREATE TABLE finding (                    -- a defect on a panel
  id            TEXT PRIMARY KEY,
  inspection_id TEXT NOT NULL REFERENCES inspection (id),
  panel         TEXT NOT NULL,
  defect        TEXT NOT NULL CHECK (defect IN ('swirls','scratches','deepScratches','oxidation','waterSpots','contamination','etching','holograms','sandingMarks','runs','stoneChips','clearCoatFailure')),
  severity      TEXT NOT NULL CHECK (severity IN ('light', 'moderate', 'heavy')),
  low_tenth_um  INTEGER NOT NULL CHECK (low_tenth_um >= 0), -- depth is a class with a range, 0.1 µm
  high_tenth_um INTEGER NOT NULL CHECK (high_tenth_um >= low_tenth_um),
  note          TEXT NOT NULL,
  person_id     TEXT REFERENCES person (id),
  at_ms         INTEGER NOT NULL,
  removed_ms    INTEGER                   -- taken back, null = stands
) STRICT;
CREATE INDEX finding_inspection ON finding (inspection_id);
CREATE TRIGGER finding_no_update BEFORE UPDATE ON finding WHEN OLD.removed_ms IS NOT NULL OR NEW.removed_ms IS NULL
  OR (NEW.id, NEW.inspection_id, NEW.panel, NEW.defect, NEW.severity, NEW.low_tenth_um, NEW.high_tenth_um, NEW.note, NEW.person_id, NEW.at_ms) IS NOT (OLD.id, OLD.inspection_id, OLD.panel, OLD.defect, OLD.severity, OLD.low_tenth_um, OLD.high_tenth_um, OLD.note, OLD.person_id, OLD.at_ms)
  BEGIN SELECT RAISE(ABORT, 'what was seen is kept as noted; it is only taken back'); END;
CREATE TRIGGER finding_no_delete BEFORE DELETE ON finding BEGIN SELECT RAISE(ABORT, 'what was seen is kept as noted; it is only taken back'); END;

CREATE TABLE sanding_consent (            -- the owner's own word that a panel may be wet sanded; given or taken back, never changed
  id             TEXT PRIMARY KEY,
  inspection_id  TEXT NOT NULL REFERENCES inspection (id),
  panel          TEXT NOT NULL,
  name           TEXT NOT NULL CHECK (name <> ''), -- who agreed
  way            TEXT NOT NULL CHECK (way IN ('signature','spoken','telephone','email','letter')),
  up_to_tenth_um INTEGER NOT NULL CHECK (up_to_tenth_um > 0), -- most that the sanding may take, 0.1 µm
  person_id      TEXT REFERENCES person (id), -- who recorded it
  at_ms          INTEGER NOT NULL,
  removed_ms     INTEGER                  -- taken back, null = stands
) STRICT;
CREATE UNIQUE INDEX sanding_consent_panel ON sanding_consent (inspection_id, panel) WHERE removed_ms IS NULL;
CREATE TRIGGER sanding_consent_no_delete BEFORE DELETE ON sanding_consent BEGIN SELECT RAISE(ABORT, 'what was agreed is kept; it is only taken back'); END;

CREATE TABLE film_reading (               -- one reading of the gauge
  id            INTEGER PRIMARY KEY,
  inspection_id TEXT NOT NULL REFERENCES inspection (id),
  panel         TEXT NOT NULL,
  phase         TEXT NOT NULL CHECK (phase IN ('before', 'after')),
  tenth_um      INTEGER NOT NULL CHECK (tenth_um BETWEEN 1 AND 100000), -- 0.1 µm
  point         TEXT,                     -- name of the marked point, null = free on the panel
  x             INTEGER,                  -- marked point in the drawing's units (5 mm), null = not drawn
  y             INTEGER,
  person_id     TEXT REFERENCES person (id),
  at_ms         INTEGER NOT NULL,
  removed_ms    INTEGER,                  -- a slip of the gauge taken back, null = stands
  CHECK ((x IS NULL) = (y IS NULL))
) STRICT;
CREATE INDEX film_reading_inspection ON film_reading (inspection_id, panel);
CREATE TRIGGER film_reading_no_update BEFORE UPDATE ON film_reading WHEN OLD.removed_ms IS NOT NULL OR NEW.removed_ms IS NULL
  OR (NEW.id, NEW.inspection_id, NEW.panel, NEW.phase, NEW.tenth_um, NEW.point, NEW.x, NEW.y, NEW.person_id, NEW.at_ms) IS NOT (OLD.id, OLD.inspection_id, OLD.panel, OLD.phase, OLD.tenth_um, OLD.point, OLD.x, OLD.y, OLD.person_id, OLD.at_ms)
  BEGIN SELECT RAISE(ABORT, 'what was seen is kept as noted; it is only taken back'); END;
CREATE TRIGGER film_reading_no_delete BEFORE DELETE ON film_reading BEGIN SELECT RAISE(ABORT, 'what was seen is kept as noted; it is only taken back'); END;

CREATE TABLE test_spot (                  -- sections tried on this very car; never changed
  id               TEXT PRIMARY KEY,
  inspection_id    TEXT NOT NULL REFERENCES inspection (id),
  panel            TEXT NOT NULL,
  role             TEXT NOT NULL CHECK (role IN ('heavyCut', 'mediumCut', 'oneStep', 'finish')),
  passes           INTEGER NOT NULL CHECK (passes BETWEEN 1 AND 40),
  sections         INTEGER NOT NULL CHECK (sections BETWEEN 1 AND 100),
  actual_s         INTEGER NOT NULL CHECK (actual_s > 0), -- seconds for all its sections
  removed_tenth_um INTEGER,               -- film taken as read, 0.1 µm, null = not read
  person_id        TEXT REFERENCES person (id),
  at_ms            INTEGER NOT NULL
) STRICT;
CREATE INDEX test_spot_inspection ON test_spot (inspection_id);
CREATE TRIGGER test_spot_no_update BEFORE UPDATE ON test_spot BEGIN SELECT RAISE(ABORT, 'test spots are kept as they were'); END;
CREATE TRIGGER test_spot_no_delete BEFORE DELETE ON test_spot BEGIN SELECT RAISE(ABORT, 'test spots are kept as they were'); END;

CREATE TABLE panel_removal (              -- film booked against a panel's life at one visit
  job_id           TEXT NOT NULL REFERENCES job (id),
  panel            TEXT NOT NULL,
  planned_tenth_um INTEGER NOT NULL CHECK (planned_tenth_um >= 0),
  shown_tenth_um   INTEGER,               -- difference of means, null = not read before and after
  shown            INTEGER NOT NULL CHECK (shown IN (0, 1)), -- its 95 % interval lies above 0
  method           TEXT NOT NULL CHECK (method IN ('paired', 'welch', 'planned')),
  booked_tenth_um  INTEGER NOT NULL CHECK (booked_tenth_um >= planned_tenth_um), -- the life budget never fails to shrink
  at_ms            INTEGER NOT NULL,
  PRIMARY KEY (job_id, panel)
) STRICT;

CREATE TABLE picture (                    -- a picture of the vehicle; its file lies in the data folder by its hash
  id         TEXT PRIMARY KEY,
  job_id     TEXT NOT NULL REFERENCES job (id),
  panel      TEXT,                        -- null = of the whole vehicle
  phase      TEXT NOT NULL CHECK (phase IN ('before', 'after')),
  hash       TEXT NOT NULL CHECK (length(hash) = 64), -- SHA-256 of the file, hex
  mime       TEXT NOT NULL CHECK (mime IN ('image/jpeg', 'image/png', 'image/webp')),
  consent    TEXT NOT NULL CHECK (consent IN ('record', 'publish')), -- what the owner agreed to
  person_id  TEXT REFERENCES person (id),
  taken_ms   INTEGER NOT NULL,
  removed_ms INTEGER
) STRICT;
CREATE INDEX picture_job ON picture (job_id);
CREATE TRIGGER picture_no_update BEFORE UPDATE ON picture WHEN OLD.removed_ms IS NOT NULL OR NEW.removed_ms IS NULL
  OR (NEW.id, NEW.job_id, NEW.panel, NEW.phase, NEW.hash, NEW.mime, NEW.consent, NEW.person_id, NEW.taken_ms) IS NOT (OLD.id, OLD.job_id, OLD.panel, OLD.phase, OLD.hash, OLD.mime, OLD.consent, OLD.person_id, OLD.taken_ms)
  BEGIN SELECT RAISE(ABORT, 'what was seen is kept as noted; it is only taken back'); END;
CREATE TRIGGER picture_no_delete BEFORE DELETE ON picture BEGIN SELECT RAISE(ABORT, 'what was seen is kept as noted; it is only taken back'); END;

CREATE TABLE machine_step (               -- machine, pad and liquid of a step as the shop uses it; no row = the default
  role              TEXT PRIMARY KEY CHECK (role IN ('heavyCut', 'mediumCut', 'oneStep', 'finish')),
  machine           TEXT NOT NULL CHECK (machine IN ('rotary', 'orbital', 'forced')),
  pad               TEXT NOT NULL,
  liquid            TEXT NOT NULL,
  pad_diameter_mm   INTEGER NOT NULL CHECK (pad_diameter_mm BETWEEN 20 AND 230),
  speed_rpm         INTEGER NOT NULL CHECK (speed_rpm > 0),
  reference_rpm     INTEGER NOT NULL CHECK (reference_rpm > 0),
  pressure_n        INTEGER NOT NULL CHECK (pressure_n > 0),
  reference_n       INTEGER NOT NULL CHECK (reference_n > 0),
  tenth_um_per_ks   INTEGER NOT NULL CHECK (tenth_um_per_ks >= 0), -- 0.1 µm per 1,000 s of contact at the reference
  error_per_ks      INTEGER CHECK (error_per_ks >= 0), -- standard error where measured, null = not measured
  sections_per_pad  INTEGER NOT NULL CHECK (sections_per_pad > 0),
  revision          INTEGER NOT NULL DEFAULT 1
) STRICT;
