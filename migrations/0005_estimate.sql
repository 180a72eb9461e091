-- Estimates: versions of a job's stages, hours and price with all they rest on. Owned by core/estimate. Never changed:
-- what was quoted stays readable, a new look makes a new version.

CREATE TABLE estimate (
  id            TEXT PRIMARY KEY,
  job_id        TEXT NOT NULL REFERENCES job (id),
  version       INTEGER NOT NULL CHECK (version > 0), -- 1, 2, 3 … per job
  basis         TEXT NOT NULL CHECK (basis IN ('provisional', 'inspected', 'testSpot')),
  inspection_id TEXT REFERENCES inspection (id), -- null = nobody had looked
  wish          TEXT NOT NULL CHECK (wish IN ('clean', 'protect', 'oneStage', 'twoStage', 'full', 'interior')),
  asked         TEXT NOT NULL CHECK (json_valid(asked)),  -- condition as told, interior, protection, ceiling
  panels        TEXT NOT NULL CHECK (json_valid(panels)), -- level, work, removal and gain per panel
  stages        TEXT NOT NULL CHECK (json_valid(stages)), -- as bookings, bays, stock and billing take them
  factors       TEXT NOT NULL CHECK (json_valid(factors)), -- calibration used, with its evidence
  limits        TEXT NOT NULL CHECK (json_valid(limits)), -- what stays or may only soften
  price         TEXT NOT NULL CHECK (json_valid(price)),
  p20_min       INTEGER NOT NULL CHECK (p20_min >= 0),    -- attended minutes of the whole job
  p50_min       INTEGER NOT NULL CHECK (p50_min >= p20_min),
  p80_min       INTEGER NOT NULL CHECK (p80_min >= p50_min),
  p95_min       INTEGER NOT NULL CHECK (p95_min >= p80_min),
  mean_min      INTEGER NOT NULL CHECK (mean_min >= 0),
  mu            REAL NOT NULL,            -- of log minutes of the total
  sigma         REAL NOT NULL CHECK (sigma >= 0),
  job_sigma     REAL NOT NULL CHECK (job_sigma >= 0), -- log scatter that all stages of the job share
  total_minor   INTEGER NOT NULL CHECK (total_minor >= 0),
  gain_ppm      INTEGER NOT NULL CHECK (gain_ppm BETWEEN 0 AND 1000000),
  made_ms       INTEGER NOT NULL,
  person_id     TEXT REFERENCES person (id),
  UNIQUE (job_id, version),
  CHECK ((basis = 'provisional') = (inspection_id IS NULL))
) STRICT;
CREATE TRIGGER estimate_no_update BEFORE UPDATE ON estimate BEGIN SELECT RAISE(ABORT, 'estimates are kept as they were'); END;
CREATE TRIGGER estimate_no_delete BEFORE DELETE ON estimate BEGIN SELECT RAISE(ABORT, 'estimates are kept as they were'); END;
