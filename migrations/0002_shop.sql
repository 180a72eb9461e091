-- Dated prices of labour and dated taxes. What was valid on a past day stays readable; only a row that begins
-- today or later may still be corrected.

CREATE TABLE rate (                       -- price of an attended hour; owned by core/shop
  id         TEXT PRIMARY KEY,
  applies    TEXT NOT NULL CHECK (applies IN ('all', 'skill', 'stage')), -- a stage kind beats a skill, a skill beats all
  subject    TEXT NOT NULL CHECK ((applies = 'all') = (subject = '')),   -- the skill or stage kind, '' for all
  from_day   TEXT NOT NULL CHECK (length(from_day) = 10), -- valid from this day until a later row
  hour_minor INTEGER NOT NULL CHECK (hour_minor >= 0), -- per person hour, with tax if the shop's prices include tax
  added_ms   INTEGER NOT NULL,
  UNIQUE (applies, subject, from_day)
) STRICT;

CREATE TABLE tax_rate (                   -- owned by core/shop
  id         TEXT PRIMARY KEY,
  code       TEXT NOT NULL CHECK (code IN ('standard', 'reduced', 'reduced2', 'zero', 'exempt', 'reverse', 'outside')),
  name       TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 60), -- as printed: VAT, GST, sales tax …
  category   TEXT NOT NULL CHECK (category IN ('S', 'Z', 'E', 'AE', 'O')), -- EN 16931 category code (UNCL5305)
  rate_ppm   INTEGER NOT NULL CHECK (rate_ppm BETWEEN 0 AND 1000000),
  reason     TEXT NOT NULL,               -- why no tax is charged, printed; '' for S and Z
  from_day   TEXT NOT NULL CHECK (length(from_day) = 10), -- valid from this day until a later row of the same code
  added_ms   INTEGER NOT NULL,
  UNIQUE (code, from_day),
  CHECK ((category = 'S') = (rate_ppm > 0)),
  CHECK (category IN ('S', 'Z') OR reason <> '')
) STRICT;

CREATE TRIGGER rate_no_delete BEFORE DELETE ON rate BEGIN SELECT RAISE(ABORT, 'rates are kept'); END;
CREATE TRIGGER tax_rate_no_delete BEFORE DELETE ON tax_rate BEGIN SELECT RAISE(ABORT, 'tax rates are kept'); END;
CREATE TRIGGER shop_no_delete BEFORE DELETE ON shop BEGIN SELECT RAISE(ABORT, 'the shop is kept'); END;
