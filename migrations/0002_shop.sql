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
  parts      TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(parts)), -- several taxes on one sale: [{name, ratePpm, onTax}]; [] = one
  from_day   TEXT NOT NULL CHECK (length(from_day) = 10), -- valid from this day until a later row of the same code
  added_ms   INTEGER NOT NULL,
  UNIQUE (code, from_day),
  CHECK ((category = 'S') = (rate_ppm > 0)),
  CHECK (category IN ('S', 'Z') OR reason <> '')
) STRICT;

CREATE TABLE charge (                     -- what a job costs beside its work; owned by core/shop
  id           TEXT PRIMARY KEY,
  kind         TEXT NOT NULL CHECK (kind IN ('minimum', 'rush', 'afterHours')),
  amount_minor INTEGER NOT NULL CHECK (amount_minor >= 0), -- the least a job costs, with tax if the shop's prices include tax; 0 = none
  share_ppm    INTEGER NOT NULL CHECK (share_ppm BETWEEN 0 AND 5000000), -- of the price, on top of it; 0 = none
  from_day     TEXT NOT NULL CHECK (length(from_day) = 10), -- valid from this day until a later row of the same kind
  added_ms     INTEGER NOT NULL,
  UNIQUE (kind, from_day),
  CHECK (CASE kind WHEN 'minimum' THEN share_ppm ELSE amount_minor END = 0)
) STRICT;

CREATE TABLE package_price (              -- work of a known extent at one price; owned by core/shop
  id          TEXT PRIMARY KEY,
  name        TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 60), -- as printed
  wish        TEXT NOT NULL CHECK (wish IN ('clean', 'protect', 'oneStage', 'twoStage', 'full', 'interior')),
  interior    INTEGER NOT NULL CHECK (interior IN (0, 1)),
  protection  TEXT NOT NULL CHECK (protection IN ('none', 'sealant', 'coating')),
  bodies      TEXT NOT NULL CHECK (json_valid(bodies)), -- body styles it is for, [] = all
  price_minor INTEGER CHECK (price_minor > 0), -- with tax if the shop's prices include tax; null = no longer offered from this day
  from_day    TEXT NOT NULL CHECK (length(from_day) = 10), -- valid from this day until a later row of the same name
  added_ms    INTEGER NOT NULL,
  UNIQUE (name, from_day)
) STRICT;

CREATE TABLE list_price (                 -- prices of things and of panels, an alternative to hours; owned by core/shop
  id          TEXT PRIMARY KEY,
  kind        TEXT NOT NULL CHECK (kind IN ('item', 'panel')),
  name        TEXT NOT NULL CHECK (length(name) <= 60 AND (kind = 'item') = (name <> '')), -- of an item, as printed; '' for panels
  level       TEXT NOT NULL CHECK ((kind = 'panel') = (level <> '')), -- what is done to a panel, '' for an item
  panel       TEXT NOT NULL,              -- the panel that it is for, '' = every one without a price of its own
  price_minor INTEGER CHECK (price_minor > 0), -- of one, with tax if the shop's prices include tax; null = no longer offered from this day
  tax         TEXT NOT NULL DEFAULT 'standard' CHECK (tax IN ('standard', 'reduced', 'reduced2', 'zero', 'exempt', 'reverse', 'outside')), -- code of tax_rate
  item_id     TEXT REFERENCES stock_item (id), -- the stock that one of it is taken from when it is handed over; null = from none
  item_qty    INTEGER NOT NULL DEFAULT 0 CHECK (item_qty >= 0), -- base units of that item in one of it
  from_day    TEXT NOT NULL CHECK (length(from_day) = 10), -- valid from this day until a later row of the same thing
  added_ms    INTEGER NOT NULL,
  UNIQUE (kind, name, level, panel, from_day),
  CHECK ((item_id IS NULL) = (item_qty = 0)),
  CHECK (kind = 'item' OR (item_id IS NULL AND tax = 'standard'))
) STRICT;

CREATE TRIGGER list_price_no_delete BEFORE DELETE ON list_price BEGIN SELECT RAISE(ABORT, 'prices are kept'); END;
CREATE TRIGGER charge_no_delete BEFORE DELETE ON charge BEGIN SELECT RAISE(ABORT, 'charges are kept'); END;
CREATE TRIGGER package_price_no_delete BEFORE DELETE ON package_price BEGIN SELECT RAISE(ABORT, 'packages are kept'); END;
CREATE TRIGGER rate_no_delete BEFORE DELETE ON rate BEGIN SELECT RAISE(ABORT, 'rates are kept'); END;
CREATE TRIGGER tax_rate_no_delete BEFORE DELETE ON tax_rate BEGIN SELECT RAISE(ABORT, 'tax rates are kept'); END;
CREATE TRIGGER shop_no_delete BEFORE DELETE ON shop BEGIN SELECT RAISE(ABORT, 'the shop is kept'); END;

CREATE TABLE shop_logo (                  -- the sign at the head of documents; its file lies in the data folder by its hash; owned by core/shop
  id         TEXT PRIMARY KEY,
  hash       TEXT NOT NULL CHECK (length(hash) = 64), -- SHA-256 of the file, hex
  mime       TEXT NOT NULL CHECK (mime IN ('image/jpeg', 'image/png')),
  width_px   INTEGER NOT NULL CHECK (width_px > 0),
  height_px  INTEGER NOT NULL CHECK (height_px > 0),
  added_ms   INTEGER NOT NULL,
  person_id  TEXT REFERENCES person (id),
  removed_ms INTEGER                      -- taken out or replaced, null = stands; documents issued under it keep it
) STRICT;
CREATE UNIQUE INDEX shop_logo_one ON shop_logo ((1)) WHERE removed_ms IS NULL;
CREATE TRIGGER shop_logo_no_delete BEFORE DELETE ON shop_logo BEGIN SELECT RAISE(ABORT, 'documents keep the logo they were issued under'); END;
