-- The spine: records that every area refers to. Each further file belongs to one area.
-- Conventions: ids are 20-character text; *_ms UTC epoch ms; *_min whole minutes since the epoch;
-- *_day YYYY-MM-DD in the shop's zone; *_minor minor units of the shop's currency; *_ppm parts per million.

CREATE TABLE shop (                       -- one row; owned by core/shop
  id            INTEGER PRIMARY KEY CHECK (id = 1),
  name          TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 120),
  address       TEXT NOT NULL,            -- lines separated by \n
  phone         TEXT NOT NULL,
  email         TEXT NOT NULL,
  tax_number    TEXT NOT NULL,            -- as printed on invoices, '' = none
  country       TEXT NOT NULL CHECK (length(country) = 2), -- ISO 3166-1 alpha-2
  zone          TEXT NOT NULL,            -- IANA time zone
  currency      TEXT NOT NULL CHECK (length(currency) = 3), -- ISO 4217
  locale        TEXT NOT NULL,            -- BCP 47, language of screens and documents
  film_unit     TEXT NOT NULL CHECK (film_unit IN ('um', 'mil')),
  volume_unit   TEXT NOT NULL CHECK (volume_unit IN ('ml', 'floz')),
  length_unit   TEXT NOT NULL CHECK (length_unit IN ('m', 'ft')),
  paper         TEXT NOT NULL CHECK (paper IN ('A4', 'Letter')),
  settings      TEXT NOT NULL CHECK (json_valid(settings)), -- rules the owner may change, checked by core/shared/settings.ts
  is_demo       INTEGER NOT NULL CHECK (is_demo IN (0, 1)),
  demo_day      TEXT,                     -- the day a demo shop was built around, null for a real shop
  revision      INTEGER NOT NULL DEFAULT 1
) STRICT;

CREATE TABLE person (                     -- people who work in the shop; owned by core/access
  id          TEXT PRIMARY KEY,
  name        TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 120),
  role        TEXT NOT NULL CHECK (role IN ('technician', 'desk', 'owner')),
  pin_hash    TEXT,                       -- scrypt with its salt, null = no PIN asked
  pin_tries   INTEGER NOT NULL DEFAULT 0 CHECK (pin_tries >= 0),
  pin_wait_ms INTEGER NOT NULL DEFAULT 0, -- no try before this instant
  started_day TEXT NOT NULL,
  ended_day   TEXT,                       -- last day, null = still here
  revision    INTEGER NOT NULL DEFAULT 1
) STRICT;

CREATE TABLE hour_cost (                  -- what an hour of somebody's work costs the shop, for owners alone; owned by core/access
  person_id  TEXT NOT NULL REFERENCES person (id),
  from_day   TEXT NOT NULL CHECK (length(from_day) = 10), -- from this day until a later row
  hour_minor INTEGER NOT NULL CHECK (hour_minor >= 0),
  PRIMARY KEY (person_id, from_day)
) STRICT, WITHOUT ROWID;

CREATE TABLE session (                    -- who is at which window; owned by core/access
  token_hash TEXT PRIMARY KEY,            -- SHA-256 of the token, hex
  person_id  TEXT NOT NULL REFERENCES person (id),
  started_ms INTEGER NOT NULL,
  ended_ms   INTEGER                      -- null = open
) STRICT;

CREATE TABLE journal (                    -- one row per write; owned by dispatch
  id        INTEGER PRIMARY KEY,
  at_ms     INTEGER NOT NULL,
  person_id TEXT REFERENCES person (id),  -- null = before anybody could say who they are
  command   TEXT NOT NULL,
  subjects  TEXT NOT NULL CHECK (json_valid(subjects)), -- ids of records touched
  fields    TEXT NOT NULL CHECK (json_valid(fields))    -- names of changed fields, never their values
) STRICT;
CREATE INDEX journal_at ON journal (at_ms);
CREATE TRIGGER journal_no_update BEFORE UPDATE ON journal BEGIN SELECT RAISE(ABORT, 'journal is append-only'); END;
CREATE TRIGGER journal_no_delete BEFORE DELETE ON journal BEGIN SELECT RAISE(ABORT, 'journal is append-only'); END;

CREATE TABLE answered (                   -- replies by command id, so that a repeat is answered, not done twice; owned by dispatch
  command_id TEXT PRIMARY KEY,
  name       TEXT NOT NULL,
  at_ms      INTEGER NOT NULL,
  reply      TEXT NOT NULL CHECK (json_valid(reply))
) STRICT;
CREATE INDEX answered_at ON answered (at_ms);

CREATE TABLE customer (                   -- people and firms who bring or pay for vehicles; owned by core/people
  id         TEXT PRIMARY KEY,
  kind       TEXT NOT NULL CHECK (kind IN ('person', 'firm')),
  name       TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 120),
  name_key   TEXT NOT NULL DEFAULT '',    -- lower case without accents, for finding
  phone      TEXT NOT NULL,               -- as typed, '' = none
  phone_key  TEXT NOT NULL,               -- digits only, for finding
  email      TEXT NOT NULL,               -- '' = none
  address    TEXT NOT NULL,               -- lines separated by \n, '' = none
  country    TEXT NOT NULL,               -- ISO 3166-1 alpha-2, '' = the shop's
  tax_number TEXT NOT NULL,               -- '' = none
  terms_days INTEGER NOT NULL DEFAULT 0 CHECK (terms_days BETWEEN 0 AND 365),
  locale     TEXT NOT NULL CHECK (locale IN ('', 'en', 'de', 'fr', 'es')), -- language of papers, '' = the shop's
  note       TEXT NOT NULL,
  created_ms INTEGER NOT NULL,
  erased_ms  INTEGER,                     -- personal data removed, null = kept
  revision   INTEGER NOT NULL DEFAULT 1
) STRICT;
CREATE INDEX customer_phone ON customer (phone_key);
CREATE INDEX customer_name ON customer (name_key);

CREATE TABLE vehicle (                    -- owned by core/vehicles
  id            TEXT PRIMARY KEY,
  customer_id   TEXT NOT NULL REFERENCES customer (id), -- who owns it now
  body          TEXT NOT NULL CHECK (body IN ('saloon','hatch','estate','coupe','tall','van','pickup')),
  make_model    TEXT NOT NULL,
  colour        TEXT NOT NULL,
  year          INTEGER CHECK (year BETWEEN 1886 AND 2200), -- null = not asked
  plate         TEXT NOT NULL,            -- as typed, '' = none
  plate_key     TEXT NOT NULL,            -- letters and digits only, upper case, for finding
  vin           TEXT NOT NULL,            -- as typed, '' = none; a wrong check digit is kept and shown
  length_mm     INTEGER CHECK (length_mm BETWEEN 1500 AND 12000), -- null = the body style's reference
  width_mm      INTEGER CHECK (width_mm BETWEEN 1000 AND 3500),
  height_mm     INTEGER CHECK (height_mm BETWEEN 800 AND 4500),
  hardness      TEXT NOT NULL CHECK (hardness IN ('soft','medium','hard','unknown')),
  note          TEXT NOT NULL,
  created_ms    INTEGER NOT NULL,
  revision      INTEGER NOT NULL DEFAULT 1
) STRICT;
CREATE INDEX vehicle_customer ON vehicle (customer_id);
CREATE INDEX vehicle_plate ON vehicle (plate_key);

CREATE TABLE job (                        -- owned by core/bookings
  id               TEXT PRIMARY KEY,
  number           INTEGER NOT NULL UNIQUE, -- the short number people say
  customer_id      TEXT NOT NULL REFERENCES customer (id),
  vehicle_id       TEXT NOT NULL REFERENCES vehicle (id),
  payer_id         TEXT REFERENCES customer (id), -- null = the customer pays
  purpose          TEXT NOT NULL CHECK (purpose IN ('correction','washOnly','protection','interior','inspectionVisit','redo')),
  state            TEXT NOT NULL CHECK (state IN ('enquiry','quoted','booked','here','inWork','ready','collected','cancelled','noShow')),
  wish             TEXT NOT NULL,         -- in the customer's words
  ceiling_minor    INTEGER CHECK (ceiling_minor >= 0), -- most they will pay, with tax, null = none
  ceiling_min      INTEGER CHECK (ceiling_min >= 0),   -- most hours, in minutes, null = none
  wanted_by_min    INTEGER,               -- when they want it back, null = open
  late_weight      INTEGER NOT NULL DEFAULT 1 CHECK (late_weight IN (1, 2, 4)), -- hours that an hour late counts for in a re-plan
  drop_off_min     INTEGER,               -- agreed drop-off, null until booked
  booked_ms        INTEGER,               -- when the day of that drop-off was agreed, null until booked
  pick_up_min      INTEGER,               -- the promise, null until booked
  promise_ppm      INTEGER CHECK (promise_ppm BETWEEN 0 AND 1000000), -- simulated chance when promised
  bold             INTEGER NOT NULL DEFAULT 0 CHECK (bold IN (0, 1)), -- promised below the shop's level by the desk's choice
  arrived_ms       INTEGER,
  ready_ms         INTEGER,
  collected_ms     INTEGER,
  ended_ms         INTEGER,               -- cancelled or no-show
  end_reason       TEXT NOT NULL DEFAULT '',
  plan_basis       TEXT NOT NULL DEFAULT 'none' CHECK (plan_basis IN ('none','provisional','inspected','testSpot','agreed')),
  stopped_ms       INTEGER,               -- stopped half way, null = not
  redo_of_job_id   TEXT REFERENCES job (id),
  created_ms       INTEGER NOT NULL,
  created_by       TEXT REFERENCES person (id),
  revision         INTEGER NOT NULL DEFAULT 1,
  CHECK (pick_up_min IS NULL OR drop_off_min IS NULL OR pick_up_min > drop_off_min)
) STRICT;
CREATE INDEX job_vehicle ON job (vehicle_id);
CREATE INDEX job_customer ON job (customer_id, redo_of_job_id, collected_ms);
CREATE INDEX job_state ON job (state);
CREATE INDEX job_drop_off ON job (drop_off_min);

CREATE TABLE job_stage (                  -- owned by core/bookings
  id            TEXT PRIMARY KEY,
  job_id        TEXT NOT NULL REFERENCES job (id),
  seq           INTEGER NOT NULL CHECK (seq >= 0),
  kind          TEXT NOT NULL CHECK (kind IN ('inspection','wash','decontaminate','clay','mask','sand','cut','refine','panelWipe','protect','cure','interior','finalCheck','handover')),
  state         TEXT NOT NULL CHECK (state IN ('planned','inWork','paused','done','dropped')),
  panels        TEXT NOT NULL CHECK (json_valid(panels)), -- panel ids
  estimated_min INTEGER NOT NULL CHECK (estimated_min >= 0), -- the model before calibration
  p20_min       INTEGER NOT NULL CHECK (p20_min >= 0),
  p50_min       INTEGER NOT NULL CHECK (p50_min >= p20_min),
  p80_min       INTEGER NOT NULL CHECK (p80_min >= p50_min),
  p95_min       INTEGER NOT NULL CHECK (p95_min >= p80_min),
  mu            REAL NOT NULL,            -- of log minutes
  sigma         REAL NOT NULL CHECK (sigma >= 0),
  dwell_min     INTEGER NOT NULL CHECK (dwell_min >= 0), -- unattended, holds the place
  bay_kinds     TEXT NOT NULL CHECK (json_valid(bay_kinds)),
  skill         TEXT NOT NULL,
  crew          INTEGER NOT NULL CHECK (crew BETWEEN 0 AND 2),
  splittable    INTEGER NOT NULL CHECK (splittable IN (0, 1)),
  note          TEXT NOT NULL,
  started_ms    INTEGER,                  -- first work on it, or when a stage nobody attends began; null = not begun
  done_ms       INTEGER,
  revision      INTEGER NOT NULL DEFAULT 1,
  UNIQUE (job_id, seq)
) STRICT;

CREATE TABLE job_material (               -- what the plan expects to use per stage; owned by core/bookings
  stage_id TEXT NOT NULL REFERENCES job_stage (id),
  material TEXT NOT NULL,
  amount   INTEGER NOT NULL CHECK (amount >= 0), -- base units of the material
  PRIMARY KEY (stage_id, material)
) STRICT;

-- what learning counts and reads, newest last; the index holds even the state, so that neither looks at the table
CREATE INDEX job_stage_done ON job_stage (done_ms, id, job_id, kind, estimated_min, state)
  WHERE state = 'done' AND done_ms IS NOT NULL AND estimated_min > 0;

CREATE TABLE stage_work (                 -- time really worked, one row per person and stretch; owned by core/bookings
  id         INTEGER PRIMARY KEY,
  stage_id   TEXT NOT NULL REFERENCES job_stage (id),
  person_id  TEXT NOT NULL REFERENCES person (id),
  start_ms   INTEGER NOT NULL,
  end_ms     INTEGER,                     -- null = running
  corrected  INTEGER NOT NULL DEFAULT 0 CHECK (corrected IN (0, 1)), -- typed in afterwards
  bay_id     TEXT REFERENCES bay (id),    -- where the board had the stage when it was written; null = nowhere
  CHECK (end_ms IS NULL OR end_ms >= start_ms)
) STRICT;
CREATE INDEX stage_work_stage ON stage_work (stage_id, person_id, start_ms, end_ms);
CREATE INDEX stage_work_person ON stage_work (person_id, end_ms);

CREATE TABLE bay (                        -- owned by core/bays
  id         TEXT PRIMARY KEY,
  name       TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 60),
  kind       TEXT NOT NULL CHECK (kind IN ('wash','correction','protection','yard')),
  capacity   INTEGER NOT NULL CHECK (capacity BETWEEN 1 AND 50), -- 1 for a bay, the number of cars for the yard
  setup_min  INTEGER NOT NULL DEFAULT 0 CHECK (setup_min BETWEEN 0 AND 240),
  seq        INTEGER NOT NULL,
  started_day TEXT NOT NULL CHECK (length(started_day) = 10), -- first day; before it the bay was not there
  ended_day  TEXT CHECK (ended_day >= started_day), -- last day, null = still there
  revision   INTEGER NOT NULL DEFAULT 1
) STRICT;

CREATE TABLE sequence (                   -- counters for short numbers; owned by core/db
  name TEXT PRIMARY KEY,
  next INTEGER NOT NULL CHECK (next > 0)
) STRICT;
