-- Stock: items, suppliers, the ledger, pads, counts, orders, deliveries. Owned by core/stock.
-- Amounts are integers in the item's base unit (ul, mg, mm, piece).

CREATE TABLE stock_item (                  -- what lies on a shelf
  id               TEXT PRIMARY KEY,
  name             TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 120),
  material         TEXT,                   -- what stages ask for by name, null = not asked for by any stage
  base_unit        TEXT NOT NULL CHECK (base_unit IN ('ul', 'mg', 'mm', 'piece')),
  pack_size        INTEGER NOT NULL CHECK (pack_size > 0),   -- base units in one pack
  pack_word        TEXT NOT NULL,          -- what a pack is called: bottle, bar, roll
  place            TEXT NOT NULL,          -- shelf, '' = not said
  shelf_packs      INTEGER CHECK (shelf_packs > 0),          -- most packs the shelf takes, null = no limit
  sealed_life_days INTEGER CHECK (sealed_life_days > 0),     -- unopened, null = keeps
  opened_life_days INTEGER CHECK (opened_life_days > 0),     -- once opened, null = keeps
  hazards          TEXT NOT NULL,          -- short words from the maker's sheet, '' = none noted
  sheet            TEXT NOT NULL,          -- link or file name of the safety data sheet, '' = none
  barcode          TEXT NOT NULL,          -- as scanned, '' = none
  reusable         INTEGER NOT NULL CHECK (reusable IN (0, 1)), -- goes round clean, dirty, washed
  uses_per_life    INTEGER CHECK (uses_per_life > 0),        -- expected uses of one piece, null for what is used up
  preference       INTEGER NOT NULL DEFAULT 0,               -- among items of one material the lowest goes first
  ended_day        TEXT,                   -- no longer kept since, null = kept
  revision         INTEGER NOT NULL DEFAULT 1,
  CHECK (reusable = 0 OR base_unit = 'piece')
) STRICT;
CREATE UNIQUE INDEX stock_item_barcode ON stock_item (barcode) WHERE barcode <> '';
CREATE UNIQUE INDEX stock_item_name ON stock_item (name COLLATE NOCASE) WHERE ended_day IS NULL;
CREATE INDEX stock_item_material ON stock_item (material, preference);

CREATE TABLE supplier (
  id              TEXT PRIMARY KEY,
  name            TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 120),
  email           TEXT NOT NULL,           -- '' = none
  lead_days       INTEGER NOT NULL CHECK (lead_days BETWEEN 0 AND 365), -- supplier's working days from order to delivery
  open_weekdays   TEXT NOT NULL CHECK (json_valid(open_weekdays)),      -- 1 = Monday … 7 = Sunday
  closed_days     TEXT NOT NULL CHECK (json_valid(closed_days)),        -- local days shut besides
  min_order_minor INTEGER NOT NULL CHECK (min_order_minor >= 0),
  ended_day       TEXT,
  revision        INTEGER NOT NULL DEFAULT 1
) STRICT;

CREATE TABLE supplier_item (               -- who sells an item, in what packs, at what price before tax
  supplier_id TEXT NOT NULL REFERENCES supplier (id),
  item_id     TEXT NOT NULL REFERENCES stock_item (id),
  code        TEXT NOT NULL,               -- supplier's own number, '' = none
  pack_size   INTEGER NOT NULL CHECK (pack_size > 0),        -- base units in the supplier's pack
  price_minor INTEGER NOT NULL CHECK (price_minor >= 0),     -- one pack
  breaks      TEXT NOT NULL CHECK (json_valid(breaks)),      -- [{fromPacks, priceMinor}] rising
  preferred   INTEGER NOT NULL CHECK (preferred IN (0, 1)),
  revision    INTEGER NOT NULL DEFAULT 1,
  PRIMARY KEY (supplier_id, item_id)
) STRICT;
CREATE INDEX supplier_item_item ON supplier_item (item_id);

CREATE TABLE data_sheet (                  -- a safety data sheet as a file; it lies in the data folder by its hash
  id         TEXT PRIMARY KEY,
  item_id    TEXT NOT NULL REFERENCES stock_item (id),
  hash       TEXT NOT NULL CHECK (length(hash) = 64), -- SHA-256 of the file, hex
  mime       TEXT NOT NULL CHECK (mime IN ('application/pdf', 'image/jpeg', 'image/png')),
  file_name  TEXT NOT NULL,                -- as it was called where it came from
  added_ms   INTEGER NOT NULL,
  person_id  TEXT REFERENCES person (id),  -- null = the program itself
  removed_ms INTEGER                       -- taken out or replaced, null = stands
) STRICT;
CREATE UNIQUE INDEX data_sheet_item ON data_sheet (item_id) WHERE removed_ms IS NULL;

CREATE TABLE stock_movement (              -- the ledger: never changed, corrected by a further line
  id          INTEGER PRIMARY KEY,
  item_id     TEXT NOT NULL REFERENCES stock_item (id),
  qty         INTEGER NOT NULL,            -- base units, signed; 0 only for recost
  value_minor INTEGER NOT NULL,            -- change of the book value at moving average, signed
  reason      TEXT NOT NULL CHECK (reason IN ('open','delivery','draw','waste','count','found','return','retire','recost')),
  job_id      TEXT REFERENCES job (id),
  stage_id    TEXT REFERENCES job_stage (id),
  delivery_id TEXT,                        -- delivery that brought it
  corrects_id INTEGER REFERENCES stock_movement (id), -- the draw that this line corrects, null = stands by itself
  person_id   TEXT REFERENCES person (id), -- null = the program itself
  at_ms       INTEGER NOT NULL,
  note        TEXT NOT NULL,               -- why wasted, which batch; '' = nothing
  CHECK (qty <> 0 OR reason IN ('recost', 'count')),
  CHECK (corrects_id IS NULL OR reason = 'draw')
) STRICT;
CREATE INDEX stock_movement_item ON stock_movement (item_id, at_ms, qty, value_minor);
CREATE INDEX stock_movement_draw ON stock_movement (at_ms, item_id, qty) WHERE reason = 'draw';
CREATE INDEX stock_movement_job ON stock_movement (job_id) WHERE job_id IS NOT NULL;
CREATE INDEX stock_movement_stage ON stock_movement (stage_id) WHERE stage_id IS NOT NULL;
CREATE INDEX stock_movement_corrects ON stock_movement (corrects_id) WHERE corrects_id IS NOT NULL;
CREATE TRIGGER stock_movement_no_update BEFORE UPDATE ON stock_movement
  BEGIN SELECT RAISE(ABORT, 'the stock ledger is append-only'); END;
CREATE TRIGGER stock_movement_no_delete BEFORE DELETE ON stock_movement
  BEGIN SELECT RAISE(ABORT, 'the stock ledger is append-only'); END;

CREATE TABLE draw_without_item (           -- what a stage used of a material that the shop keeps no item of, append-only
  id        INTEGER PRIMARY KEY,
  stage_id  TEXT NOT NULL REFERENCES job_stage (id),
  job_id    TEXT NOT NULL REFERENCES job (id),
  material  TEXT NOT NULL,
  amount    INTEGER NOT NULL CHECK (amount > 0), -- base units of the material
  person_id TEXT REFERENCES person (id),   -- null = the program itself
  at_ms     INTEGER NOT NULL
) STRICT;
CREATE INDEX draw_without_item_job ON draw_without_item (job_id);
CREATE TRIGGER draw_without_item_no_update BEFORE UPDATE ON draw_without_item
  BEGIN SELECT RAISE(ABORT, 'what was used is append-only'); END;
CREATE TRIGGER draw_without_item_no_delete BEFORE DELETE ON draw_without_item
  BEGIN SELECT RAISE(ABORT, 'what was used is append-only'); END;

CREATE TABLE draw_settled (                -- such a use that was taken from an item after all or removed, append-only
  draw_id   INTEGER PRIMARY KEY REFERENCES draw_without_item (id),
  item_id   TEXT REFERENCES stock_item (id), -- null = removed
  why       TEXT NOT NULL,                 -- why it was removed, else ''
  person_id TEXT REFERENCES person (id),   -- null = the program itself
  at_ms     INTEGER NOT NULL,
  CHECK ((item_id IS NULL) = (why <> ''))
) STRICT;
CREATE TRIGGER draw_settled_no_update BEFORE UPDATE ON draw_settled
  BEGIN SELECT RAISE(ABORT, 'what was used is append-only'); END;
CREATE TRIGGER draw_settled_no_delete BEFORE DELETE ON draw_settled
  BEGIN SELECT RAISE(ABORT, 'what was used is append-only'); END;

CREATE TABLE stock_level (                 -- sum of the ledger per item, kept by trigger only
  item_id         TEXT PRIMARY KEY REFERENCES stock_item (id),
  qty             INTEGER NOT NULL,        -- on hand by the book, below 0 after draws beyond it
  value_minor     INTEGER NOT NULL,
  last_cost_qty   INTEGER NOT NULL DEFAULT 0, -- latest receipt with a price: amount …
  last_cost_minor INTEGER NOT NULL DEFAULT 0  -- … and what it cost
) STRICT;
CREATE TRIGGER stock_movement_level AFTER INSERT ON stock_movement BEGIN
  INSERT INTO stock_level (item_id, qty, value_minor, last_cost_qty, last_cost_minor)
  VALUES (NEW.item_id, NEW.qty, NEW.value_minor,
          CASE WHEN NEW.reason IN ('open','delivery') AND NEW.qty > 0 THEN NEW.qty ELSE 0 END,
          CASE WHEN NEW.reason IN ('open','delivery') AND NEW.qty > 0 THEN NEW.value_minor ELSE 0 END)
  ON CONFLICT (item_id) DO UPDATE SET
    qty = qty + NEW.qty,
    value_minor = value_minor + NEW.value_minor,
    last_cost_qty = CASE WHEN NEW.reason IN ('open','delivery') AND NEW.qty > 0 THEN NEW.qty ELSE last_cost_qty END,
    last_cost_minor = CASE WHEN NEW.reason IN ('open','delivery') AND NEW.qty > 0 THEN NEW.value_minor ELSE last_cost_minor END;
END;

CREATE TABLE stock_container (             -- a bottle, tub or roll that was opened; what is in it counts as on hand
  id         TEXT PRIMARY KEY,
  item_id    TEXT NOT NULL REFERENCES stock_item (id),
  holds      INTEGER NOT NULL CHECK (holds > 0), -- base units when full
  batch      TEXT NOT NULL,                -- maker's batch, '' = not noted
  opened_day TEXT NOT NULL,
  opened_ms  INTEGER NOT NULL,             -- when that was written down
  closed_ms  INTEGER,                      -- null = in use
  closed_as  TEXT CHECK (closed_as IN ('empty', 'thrown')),
  CHECK ((closed_ms IS NULL) = (closed_as IS NULL))
) STRICT;
CREATE INDEX stock_container_open ON stock_container (item_id) WHERE closed_ms IS NULL;

CREATE TABLE container_reading (           -- what was left in it, append-only; the latest counts
  id              INTEGER PRIMARY KEY,
  container_id    TEXT NOT NULL REFERENCES stock_container (id),
  as_of_id        INTEGER NOT NULL,        -- last line of the item's ledger that it stands beside, 0 = before any
  rest            INTEGER NOT NULL CHECK (rest >= 0), -- base units
  how             TEXT NOT NULL CHECK (how IN ('opened', 'level', 'weight', 'book')), -- book = carried past a line that was another's
  tare_mg         INTEGER,                 -- empty container, weighed ones only
  grams_per_litre INTEGER,                 -- density, weighed volumes only
  person_id       TEXT REFERENCES person (id),
  at_ms           INTEGER NOT NULL,
  CHECK ((how = 'weight') = (tare_mg IS NOT NULL))
) STRICT;
CREATE INDEX container_reading_container ON container_reading (container_id);
CREATE TRIGGER container_reading_no_update BEFORE UPDATE ON container_reading
  BEGIN SELECT RAISE(ABORT, 'readings are append-only'); END;
CREATE TRIGGER container_reading_no_delete BEFORE DELETE ON container_reading
  BEGIN SELECT RAISE(ABORT, 'readings are append-only'); END;

CREATE TABLE pad_batch (                   -- reusable pieces that came together
  id            TEXT PRIMARY KEY,
  item_id       TEXT NOT NULL REFERENCES stock_item (id),
  pieces        INTEGER NOT NULL CHECK (pieces > 0),
  uses_per_life INTEGER NOT NULL CHECK (uses_per_life > 0), -- expected when bought
  came_ms       INTEGER NOT NULL,
  note          TEXT NOT NULL
) STRICT;
CREATE INDEX pad_batch_item ON pad_batch (item_id, came_ms);

CREATE TABLE pad_event (                   -- pieces going from one state to another, append-only
  id         INTEGER PRIMARY KEY,
  batch_id   TEXT NOT NULL REFERENCES pad_batch (id),
  from_state TEXT CHECK (from_state IN ('clean','dirty','washing','retired')), -- null = new or found
  to_state   TEXT NOT NULL CHECK (to_state IN ('clean','dirty','washing','retired')),
  pieces     INTEGER NOT NULL CHECK (pieces > 0),
  used       INTEGER NOT NULL CHECK (used IN (0, 1)), -- counts as one use of each piece
  lost       INTEGER NOT NULL DEFAULT 0 CHECK (lost IN (0, 1)), -- retired because a count missed it, not because it wore out
  job_id     TEXT REFERENCES job (id),
  stage_id   TEXT REFERENCES job_stage (id),
  person_id  TEXT REFERENCES person (id),
  at_ms      INTEGER NOT NULL,
  note       TEXT NOT NULL,
  CHECK (lost = 0 OR to_state = 'retired')
) STRICT;
CREATE INDEX pad_event_batch ON pad_event (batch_id);
CREATE INDEX pad_event_job ON pad_event (job_id) WHERE job_id IS NOT NULL;
CREATE INDEX pad_event_lost ON pad_event (batch_id, pieces) WHERE lost = 1;
CREATE TRIGGER pad_event_no_update BEFORE UPDATE ON pad_event BEGIN SELECT RAISE(ABORT, 'pad events are append-only'); END;
CREATE TRIGGER pad_event_no_delete BEFORE DELETE ON pad_event BEGIN SELECT RAISE(ABORT, 'pad events are append-only'); END;

CREATE TABLE pad_level (                   -- sum of pad events per batch and state, kept by trigger only
  batch_id TEXT NOT NULL REFERENCES pad_batch (id),
  state    TEXT NOT NULL,
  pieces   INTEGER NOT NULL CHECK (pieces >= 0),
  uses     INTEGER NOT NULL DEFAULT 0,     -- uses booked by events that ended in this state
  PRIMARY KEY (batch_id, state)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER pad_event_level AFTER INSERT ON pad_event BEGIN
  UPDATE pad_level SET pieces = pieces - NEW.pieces WHERE batch_id = NEW.batch_id AND state = NEW.from_state;
  INSERT INTO pad_level (batch_id, state, pieces, uses) VALUES (NEW.batch_id, NEW.to_state, NEW.pieces, NEW.used * NEW.pieces)
  ON CONFLICT (batch_id, state) DO UPDATE SET pieces = pieces + NEW.pieces, uses = uses + NEW.used * NEW.pieces;
END;

CREATE TABLE stock_count (                 -- a count to do, or done
  id              TEXT PRIMARY KEY,
  item_id         TEXT NOT NULL REFERENCES stock_item (id),
  why             TEXT NOT NULL CHECK (why IN ('negative','cycle','full','asked')),
  opened_ms       INTEGER NOT NULL,
  as_of_id        INTEGER,                 -- last ledger line the count stands beside, null until counted
  book_qty        INTEGER,                 -- book at that line
  counted_qty     INTEGER CHECK (counted_qty >= 0),
  closed_ms       INTEGER,                 -- null = still to do
  person_id       TEXT REFERENCES person (id),
  CHECK ((closed_ms IS NULL) = (counted_qty IS NULL))
) STRICT;
CREATE UNIQUE INDEX stock_count_open ON stock_count (item_id) WHERE closed_ms IS NULL;

CREATE TABLE order_later (                 -- "not today", said by a person
  item_id   TEXT PRIMARY KEY REFERENCES stock_item (id),
  until_day TEXT NOT NULL,                 -- suggested again from this day on
  person_id TEXT NOT NULL REFERENCES person (id),
  at_ms     INTEGER NOT NULL
) STRICT;

CREATE TABLE purchase_order (
  id          TEXT PRIMARY KEY,
  number      INTEGER NOT NULL UNIQUE,
  supplier_id TEXT NOT NULL REFERENCES supplier (id),
  ordered_day TEXT NOT NULL,
  due_day     TEXT NOT NULL CHECK (due_day >= ordered_day),
  person_id   TEXT REFERENCES person (id),
  note        TEXT NOT NULL,
  revision    INTEGER NOT NULL DEFAULT 1
) STRICT;
CREATE INDEX purchase_order_supplier ON purchase_order (supplier_id);

CREATE TABLE purchase_order_line (
  id              TEXT PRIMARY KEY,
  order_id        TEXT NOT NULL REFERENCES purchase_order (id),
  item_id         TEXT NOT NULL REFERENCES stock_item (id),
  packs           INTEGER NOT NULL CHECK (packs > 0),
  pack_size       INTEGER NOT NULL CHECK (pack_size > 0),
  price_minor     INTEGER NOT NULL CHECK (price_minor >= 0), -- one pack, before tax, when ordered
  cancelled_packs INTEGER NOT NULL DEFAULT 0 CHECK (cancelled_packs BETWEEN 0 AND packs),
  received_packs  INTEGER NOT NULL DEFAULT 0 CHECK (received_packs >= 0),
  due_day         TEXT                     -- when what is still missing is expected, null = on the order's day
) STRICT;
CREATE INDEX purchase_order_line_order ON purchase_order_line (order_id);
CREATE INDEX purchase_order_line_item ON purchase_order_line (item_id);

CREATE TABLE delivery (
  id          TEXT PRIMARY KEY,
  supplier_id TEXT NOT NULL REFERENCES supplier (id),
  order_id    TEXT REFERENCES purchase_order (id), -- null = came without an order
  came_day    TEXT NOT NULL,
  came_ms     INTEGER NOT NULL,
  person_id   TEXT REFERENCES person (id),
  note        TEXT NOT NULL
) STRICT;
CREATE INDEX delivery_supplier ON delivery (supplier_id);

CREATE TABLE delivery_line (
  id          TEXT PRIMARY KEY,
  delivery_id TEXT NOT NULL REFERENCES delivery (id),
  line_id     TEXT REFERENCES purchase_order_line (id), -- null = not ordered
  item_id     TEXT NOT NULL REFERENCES stock_item (id),
  packs       INTEGER NOT NULL CHECK (packs > 0),
  pack_size   INTEGER NOT NULL CHECK (pack_size > 0),
  price_minor INTEGER NOT NULL CHECK (price_minor >= 0), -- one pack, as delivered
  batch       TEXT NOT NULL,               -- maker's batch, '' = not noted
  best_before TEXT                         -- local day, null = not noted
) STRICT;
CREATE INDEX delivery_line_delivery ON delivery_line (delivery_id);
