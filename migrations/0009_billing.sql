-- Quotes, invoices, credit notes, money in and out. Issued documents never change: a credit note corrects.
-- Amounts are minor units of the shop's currency; credit notes are stored with negative amounts, so that sums are sums.

CREATE TABLE quote (                      -- one version of a quote; owned by core/billing
  id              TEXT PRIMARY KEY,
  job_id          TEXT NOT NULL REFERENCES job (id),
  number          INTEGER NOT NULL CHECK (number > 0), -- the same for all versions of a job
  version         INTEGER NOT NULL CHECK (version > 0),
  state           TEXT NOT NULL CHECK (state IN ('draft','sent','accepted','replaced','declined')),
  basis           TEXT NOT NULL CHECK (basis IN ('fixed','notAbove','byTime')),
  valid_until_day TEXT NOT NULL CHECK (length(valid_until_day) = 10),
  reason          TEXT NOT NULL,          -- why there is this version, '' for the first
  locale          TEXT NOT NULL DEFAULT '', -- BCP 47 tag it is written in, '' = the shop's
  made_ms         INTEGER NOT NULL,
  made_by         TEXT REFERENCES person (id),
  sent_ms         INTEGER,                -- null until it was sent or handed over
  accepted_ms     INTEGER,                -- null until agreed
  accepted_letter TEXT CHECK (accepted_letter IN ('A','B','C')),
  accepted_name   TEXT NOT NULL DEFAULT '', -- who agreed
  accepted_way    TEXT CHECK (accepted_way IN ('signature','spoken','telephone','email','letter')),
  revision        INTEGER NOT NULL DEFAULT 1,
  UNIQUE (job_id, version),
  UNIQUE (number, version),
  CHECK (accepted_ms IS NULL OR state IN ('accepted','replaced')),
  CHECK (state <> 'accepted' OR accepted_ms IS NOT NULL),
  CHECK ((accepted_ms IS NULL) = (accepted_letter IS NULL)),
  CHECK ((accepted_ms IS NULL) = (accepted_way IS NULL)),
  CHECK (accepted_ms IS NULL OR accepted_name <> '')
) STRICT;
CREATE INDEX quote_state ON quote (state, job_id);
CREATE UNIQUE INDEX quote_one_accepted ON quote (job_id) WHERE state = 'accepted';

CREATE TABLE quote_option (               -- what one option was, word for word, on the day; never changed
  quote_id      TEXT NOT NULL REFERENCES quote (id),
  letter        TEXT NOT NULL CHECK (letter IN ('A','B','C')),
  estimate_id   TEXT NOT NULL,            -- the estimate it was made from
  title         TEXT NOT NULL,
  stages        TEXT NOT NULL CHECK (json_valid(stages)),   -- StagePlan[]
  bill          TEXT NOT NULL CHECK (json_valid(bill)),     -- lines, extras, whether tax is included
  totals        TEXT NOT NULL CHECK (json_valid(totals)),
  limits        TEXT NOT NULL CHECK (json_valid(limits)),   -- what polishing will not fix
  panels        TEXT NOT NULL CHECK (json_valid(panels)),   -- level per panel
  hours         TEXT NOT NULL CHECK (json_valid(hours)),
  charged_min   INTEGER NOT NULL CHECK (charged_min >= 0),
  rates         TEXT NOT NULL CHECK (json_valid(rates)),    -- price of an hour by kind of stage, as estimated
  charges       TEXT NOT NULL CHECK (json_valid(charges)),  -- minimum and surcharges as agreed, 0 = none
  gain_ppm      INTEGER NOT NULL CHECK (gain_ppm BETWEEN 0 AND 1000000),
  to_pay_minor  INTEGER NOT NULL,         -- with tax
  deposit_minor INTEGER NOT NULL CHECK (deposit_minor >= 0),
  PRIMARY KEY (quote_id, letter)
) STRICT;
CREATE TRIGGER quote_option_no_update BEFORE UPDATE ON quote_option BEGIN SELECT RAISE(ABORT, 'a quoted option is kept as it was'); END;
CREATE TRIGGER quote_option_no_delete BEFORE DELETE ON quote_option BEGIN SELECT RAISE(ABORT, 'a quoted option is kept as it was'); END;

CREATE TABLE invoice (                    -- invoices, prepayment and partial invoices, credit notes; owned by core/billing
  id            TEXT PRIMARY KEY,
  kind          TEXT NOT NULL CHECK (kind IN ('invoice','prepayment','partial','credit')), -- partial: work done so far, the final one bills the rest
  number        INTEGER UNIQUE CHECK (number > 0), -- one series without gaps, given at issue
  job_id        TEXT REFERENCES job (id), -- null = not about a job
  customer_id   TEXT NOT NULL REFERENCES customer (id), -- who pays
  of_invoice_id TEXT REFERENCES invoice (id), -- the invoice that a credit note corrects
  share_of_id   TEXT,                     -- the other of two that pay for one job; it may be gone, where it was a draft
  bill          TEXT NOT NULL CHECK (json_valid(bill)),
  totals        TEXT NOT NULL CHECK (json_valid(totals)),
  to_pay_minor  INTEGER NOT NULL,         -- with tax and rounding, before anything paid; negative on a credit note
  prepaid_minor INTEGER NOT NULL DEFAULT 0 CHECK (prepaid_minor >= 0), -- deposits taken off at issue (BT-113)
  parties       TEXT CHECK (json_valid(parties)), -- seller, customer, vehicle as printed; null until issued
  issued_ms     INTEGER,
  issued_by     TEXT REFERENCES person (id),
  issued_day    TEXT CHECK (length(issued_day) = 10),
  due_day       TEXT CHECK (length(due_day) = 10),
  supplied_day  TEXT CHECK (length(supplied_day) = 10), -- when the work was done
  order_number  TEXT NOT NULL DEFAULT '', -- the customer's own, '' = none
  note          TEXT NOT NULL DEFAULT '',
  reason        TEXT NOT NULL DEFAULT '', -- why a credit note was written
  locale        TEXT NOT NULL DEFAULT '', -- BCP 47 tag it is written in, '' = the shop's
  vouchers      TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(vouchers)), -- taxed vouchers it takes off: [{voucherId, amountMinor}]
  progress      TEXT CHECK (json_valid(progress)), -- of a partial invoice: the agreed option, which one of the job it is, what was billed before; else null
  made_ms       INTEGER NOT NULL,
  revision      INTEGER NOT NULL DEFAULT 1,
  CHECK ((kind = 'partial') = (progress IS NOT NULL)),
  CHECK (kind <> 'partial' OR job_id IS NOT NULL),
  CHECK ((kind = 'credit') = (of_invoice_id IS NOT NULL)),
  CHECK ((number IS NULL) = (issued_ms IS NULL)),
  CHECK ((number IS NULL) = (issued_day IS NULL)),
  CHECK ((number IS NULL) = (parties IS NULL)),
  CHECK ((number IS NULL) = (due_day IS NULL))
) STRICT;
CREATE INDEX invoice_job ON invoice (job_id);
CREATE INDEX invoice_customer ON invoice (customer_id);
CREATE INDEX invoice_day ON invoice (issued_day, id); -- with the id, so that a year's tax is summed without reading the documents
CREATE INDEX invoice_asked ON invoice (id, to_pay_minor); -- what is asked, without reading the documents
CREATE INDEX invoice_unasked ON invoice (issued_day) WHERE to_pay_minor = 0; -- what was covered before
CREATE INDEX invoice_share ON invoice (share_of_id);
CREATE INDEX invoice_of ON invoice (of_invoice_id);
CREATE TRIGGER invoice_issued_no_update BEFORE UPDATE ON invoice WHEN OLD.number IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;
CREATE TRIGGER invoice_issued_no_delete BEFORE DELETE ON invoice WHEN OLD.number IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'an issued document is kept'); END;
CREATE TRIGGER invoice_no_gap BEFORE UPDATE OF number ON invoice
WHEN NEW.number IS NOT NULL
  AND NEW.number <> max((SELECT coalesce(max(number), 0) FROM invoice), (SELECT last_no FROM issue_check)) + 1
BEGIN SELECT RAISE(ABORT, 'document numbers have no gaps'); END;
CREATE TRIGGER invoice_born_unnumbered BEFORE INSERT ON invoice WHEN NEW.number IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'a document gets its number when it is issued'); END;

CREATE TABLE billed_job (                 -- the jobs that a collective invoice bills
  invoice_id TEXT NOT NULL REFERENCES invoice (id),
  job_id     TEXT NOT NULL REFERENCES job (id),
  PRIMARY KEY (invoice_id, job_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX billed_job_job ON billed_job (job_id);
CREATE TRIGGER billed_job_no_insert BEFORE INSERT ON billed_job
WHEN EXISTS (SELECT 1 FROM invoice i WHERE i.id = NEW.invoice_id AND i.number IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;
CREATE TRIGGER billed_job_no_update BEFORE UPDATE ON billed_job BEGIN SELECT RAISE(ABORT, 'the jobs of an invoice are kept'); END;
CREATE TRIGGER billed_job_no_delete BEFORE DELETE ON billed_job
WHEN EXISTS (SELECT 1 FROM invoice i WHERE i.id = OLD.invoice_id AND i.number IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;

CREATE TABLE paper_print (                -- that an issued document was printed, append-only
  seq        INTEGER PRIMARY KEY,
  invoice_id TEXT NOT NULL REFERENCES invoice (id),
  at_ms      INTEGER NOT NULL,
  by_id      TEXT REFERENCES person (id)
) STRICT;
CREATE INDEX paper_print_invoice ON paper_print (invoice_id);
CREATE TRIGGER paper_print_no_update BEFORE UPDATE ON paper_print BEGIN SELECT RAISE(ABORT, 'prints are append-only'); END;
CREATE TRIGGER paper_print_no_delete BEFORE DELETE ON paper_print BEGIN SELECT RAISE(ABORT, 'prints are append-only'); END;

CREATE TABLE invoice_tax (                -- tax of issued documents by rate, for the tax report
  invoice_id    TEXT NOT NULL REFERENCES invoice (id),
  category      TEXT NOT NULL CHECK (category IN ('S','Z','E','AE','O')),
  rate_ppm      INTEGER NOT NULL CHECK (rate_ppm BETWEEN 0 AND 1000000),
  name          TEXT NOT NULL,
  taxable_minor INTEGER NOT NULL,
  tax_minor     INTEGER NOT NULL,
  net_minor     INTEGER NOT NULL,         -- what it adds to the document's net: 0 for a further tax on the same sale
  PRIMARY KEY (invoice_id, category, rate_ppm, name)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER invoice_tax_of_totals BEFORE INSERT ON invoice_tax
WHEN NOT EXISTS (
  SELECT 1 FROM invoice i, json_each(i.totals, '$.taxes') t
  WHERE i.id = NEW.invoice_id AND i.number IS NOT NULL
    AND t.value ->> 'category' = NEW.category AND t.value ->> 'name' = NEW.name AND t.value ->> 'ratePpm' = NEW.rate_ppm
    AND t.value ->> 'taxableMinor' = NEW.taxable_minor AND t.value ->> 'taxMinor' = NEW.tax_minor
    AND coalesce(t.value ->> 'netMinor', t.value ->> 'taxableMinor') = NEW.net_minor)
BEGIN SELECT RAISE(ABORT, 'tax rows repeat an issued document'); END;
CREATE TRIGGER invoice_tax_no_update BEFORE UPDATE ON invoice_tax BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;
CREATE TRIGGER invoice_tax_no_delete BEFORE DELETE ON invoice_tax BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;

CREATE TABLE payment (                    -- money in and out, append-only; owned by core/billing
  id            TEXT PRIMARY KEY,
  receipt       INTEGER NOT NULL CHECK (receipt > 0), -- rows taken together share one
  kind          TEXT NOT NULL CHECK (kind IN ('payment','deposit','credit','voucher','tip','refund','rounding')), -- rounding: what coins could not make
  way           TEXT NOT NULL CHECK (way IN ('cash','card','transfer','account')), -- account = no money moved, held before
  amount_minor  INTEGER NOT NULL CHECK (amount_minor <> 0), -- money paid back is negative
  customer_id   TEXT REFERENCES customer (id), -- null = who bought a voucher was not named
  job_id        TEXT REFERENCES job (id), -- what a deposit is for
  person_id     TEXT REFERENCES person (id), -- whose tip, null = shared
  of_payment_id TEXT REFERENCES payment (id), -- the deposit, credit or voucher that a refund gives back
  at_ms         INTEGER NOT NULL,
  local_day     TEXT NOT NULL CHECK (length(local_day) = 10),
  taken_by      TEXT REFERENCES person (id),
  note          TEXT NOT NULL,
  locale        TEXT NOT NULL DEFAULT '', -- BCP 47 tag its receipt is written in, '' = the shop's
  CHECK (kind = 'rounding' OR (kind = 'refund') = (amount_minor < 0)),
  CHECK (kind <> 'rounding' OR way = 'account'),
  CHECK (kind <> 'deposit' OR job_id IS NOT NULL),
  CHECK (customer_id IS NOT NULL OR kind = 'voucher' OR (kind IN ('refund','rounding') AND of_payment_id IS NOT NULL))
) STRICT;
CREATE INDEX payment_day ON payment (local_day);
CREATE INDEX payment_job ON payment (job_id);
CREATE INDEX payment_of ON payment (of_payment_id);
CREATE INDEX payment_customer ON payment (customer_id);
CREATE INDEX payment_receipt ON payment (receipt);
CREATE TRIGGER payment_no_update BEFORE UPDATE ON payment BEGIN SELECT RAISE(ABORT, 'payments are append-only'); END;
CREATE TRIGGER payment_no_delete BEFORE DELETE ON payment BEGIN SELECT RAISE(ABORT, 'payments are append-only'); END;

CREATE TABLE allocation (                 -- which money settles which document, append-only
  id           INTEGER PRIMARY KEY,
  payment_id   TEXT NOT NULL REFERENCES payment (id),
  invoice_id   TEXT NOT NULL REFERENCES invoice (id),
  amount_minor INTEGER NOT NULL CHECK (amount_minor <> 0), -- negative for a refund
  at_ms        INTEGER NOT NULL,
  local_day    TEXT NOT NULL CHECK (length(local_day) = 10)
) STRICT;
CREATE INDEX allocation_invoice ON allocation (invoice_id);
CREATE INDEX allocation_payment ON allocation (payment_id);
CREATE INDEX allocation_day ON allocation (local_day, invoice_id);
CREATE TRIGGER allocation_on_issued BEFORE INSERT ON allocation
WHEN NOT EXISTS (SELECT 1 FROM invoice i WHERE i.id = NEW.invoice_id AND i.number IS NOT NULL AND i.kind <> 'credit')
BEGIN SELECT RAISE(ABORT, 'money settles issued invoices'); END;
CREATE TRIGGER allocation_no_update BEFORE UPDATE ON allocation BEGIN SELECT RAISE(ABORT, 'allocations are append-only'); END;
CREATE TRIGGER allocation_no_delete BEFORE DELETE ON allocation BEGIN SELECT RAISE(ABORT, 'allocations are append-only'); END;

CREATE TABLE cash_count (                 -- the till, counted; append-only; owned by core/billing
  seq            INTEGER PRIMARY KEY,
  expected_minor INTEGER NOT NULL,          -- what the last count left, and all cash since
  counted_minor  INTEGER NOT NULL CHECK (counted_minor >= 0),
  banked_minor   INTEGER NOT NULL CHECK (banked_minor BETWEEN 0 AND counted_minor), -- taken out to the bank after counting
  reason         TEXT NOT NULL,             -- why counted and expected differ, '' where they do not
  last_receipt   INTEGER NOT NULL CHECK (last_receipt >= 0), -- the last one that is counted in
  at_ms          INTEGER NOT NULL,
  local_day      TEXT NOT NULL CHECK (length(local_day) = 10),
  counted_by     TEXT REFERENCES person (id),
  CHECK (counted_minor = expected_minor OR reason <> '')
) STRICT;
CREATE INDEX cash_count_day ON cash_count (local_day);
CREATE TRIGGER cash_count_no_update BEFORE UPDATE ON cash_count BEGIN SELECT RAISE(ABORT, 'counts of the till are append-only'); END;
CREATE TRIGGER cash_count_no_delete BEFORE DELETE ON cash_count BEGIN SELECT RAISE(ABORT, 'counts of the till are append-only'); END;

CREATE TABLE deduction (                  -- a prepayment or partial invoice taken off on a final invoice by negative lines; again when that one was wholly credited
  prepayment_id TEXT NOT NULL REFERENCES invoice (id),
  invoice_id    TEXT NOT NULL REFERENCES invoice (id),
  taken_minor   INTEGER NOT NULL,         -- with tax: what it still asked for after its credit notes
  PRIMARY KEY (prepayment_id, invoice_id)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER deduction_no_update BEFORE UPDATE ON deduction BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;
CREATE TRIGGER deduction_no_delete BEFORE DELETE ON deduction BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;

CREATE TABLE partial_line (               -- what partial invoices bill of each line of the agreed option, append-only: below zero what credit notes give back
  id           INTEGER PRIMARY KEY,
  invoice_id   TEXT NOT NULL REFERENCES invoice (id), -- the partial invoice, or a credit note of it
  partial_id   TEXT NOT NULL REFERENCES invoice (id), -- the partial invoice
  quote_id     TEXT NOT NULL,
  letter       TEXT NOT NULL,
  line         INTEGER NOT NULL CHECK (line >= 0), -- of the option's bill, from 0; a discount or charge on the whole stands behind the lines
  amount_minor INTEGER NOT NULL CHECK (amount_minor <> 0), -- as the bill is priced: with tax or before it
  UNIQUE (invoice_id, line),
  FOREIGN KEY (quote_id, letter) REFERENCES quote_option (quote_id, letter)
) STRICT;
CREATE INDEX partial_line_of ON partial_line (quote_id, letter, line);
CREATE INDEX partial_line_partial ON partial_line (partial_id);
CREATE TRIGGER partial_line_billed_once BEFORE INSERT ON partial_line
WHEN (SELECT NOT (billed BETWEEN min(0, whole) AND max(0, whole)) FROM (SELECT
    NEW.amount_minor + (SELECT coalesce(sum(p.amount_minor), 0) FROM partial_line p
      WHERE p.quote_id = NEW.quote_id AND p.letter = NEW.letter AND p.line = NEW.line) AS billed,
    coalesce((SELECT CAST(round(1.0 * (l.value ->> 'quantity') * (l.value ->> 'priceMinor') / (l.value ->> 'per')) AS INTEGER)
        - (l.value ->> 'discountMinor') FROM json_each(o.bill, '$.lines') l WHERE l.key = NEW.line),
      json_extract(o.bill, '$.extras[' || (NEW.line - json_array_length(o.bill, '$.lines')) || '].amountMinor'), 0) AS whole
  FROM quote_option o WHERE o.quote_id = NEW.quote_id AND o.letter = NEW.letter))
BEGIN SELECT RAISE(ABORT, 'no part of a line is billed twice'); END;
CREATE TRIGGER partial_line_no_update BEFORE UPDATE ON partial_line BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;
CREATE TRIGGER partial_line_no_delete BEFORE DELETE ON partial_line BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;
CREATE TRIGGER invoice_takes_partials_off BEFORE UPDATE OF number ON invoice
WHEN NEW.number IS NOT NULL AND NEW.kind = 'invoice' AND NEW.job_id IS NOT NULL
  AND EXISTS (SELECT 1 FROM json_each(NEW.bill, '$.lines') l
    WHERE l.value ->> 'what' LIKE 'labour.%' OR l.value ->> 'what' IN ('materials', 'package', 'panel', 'job'))
  AND EXISTS (SELECT 1 FROM invoice p WHERE p.job_id = NEW.job_id AND p.kind = 'partial' AND p.number IS NOT NULL
    AND (SELECT sum(k.to_pay_minor) FROM invoice k WHERE k.number IS NOT NULL AND (k.id = p.id OR k.of_invoice_id = p.id)) <> 0
    AND NOT EXISTS (SELECT 1 FROM deduction d WHERE d.prepayment_id = p.id AND (d.invoice_id = NEW.id
      OR EXISTS (SELECT 1 FROM invoice f WHERE f.id = d.invoice_id AND f.number IS NOT NULL -- one that stands took it off
        AND f.to_pay_minor + (SELECT sum(k.to_pay_minor) FROM invoice k WHERE k.of_invoice_id = f.id AND k.number IS NOT NULL)
          IS NOT 0))))
BEGIN SELECT RAISE(ABORT, 'the invoice of the rest takes off what was billed before'); END;

CREATE TABLE reminder (                   -- that somebody was reminded
  invoice_id TEXT NOT NULL REFERENCES invoice (id),
  level      INTEGER NOT NULL CHECK (level BETWEEN 1 AND 5),
  at_ms      INTEGER NOT NULL,
  by_id      TEXT REFERENCES person (id),
  PRIMARY KEY (invoice_id, level)
) STRICT, WITHOUT ROWID;

CREATE TABLE issue_check (                -- one row: whether the next number must be confirmed against the last paper
  id      INTEGER PRIMARY KEY CHECK (id = 1),
  ask     INTEGER NOT NULL CHECK (ask IN (0, 1)), -- 1 after a restore: documents issued since the copy may exist on paper
  last_no INTEGER NOT NULL CHECK (last_no >= 0),  -- the highest number known from paper, 0 = none
  read_nos TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(read_nos)) -- every number read from paper: the series goes on behind each
) STRICT;
INSERT INTO issue_check (id, ask, last_no) VALUES (1, 0, 0);

CREATE TABLE voucher (                    -- gift vouchers sold; owned by core/billing
  id          TEXT PRIMARY KEY,
  number      INTEGER NOT NULL UNIQUE CHECK (number > 0),
  code        TEXT NOT NULL UNIQUE CHECK (length(code) = 9), -- what its sheet bears so that nobody guesses it, without dashes
  purpose     TEXT NOT NULL CHECK (purpose IN ('single','multi')), -- single: taxed when sold; multi: taxed when used
  value_minor INTEGER NOT NULL CHECK (value_minor > 0), -- with tax
  customer_id TEXT REFERENCES customer (id), -- who bought it, null = not named
  for_name    TEXT NOT NULL DEFAULT '',   -- who it is for, as printed, '' = not said
  payment_id  TEXT REFERENCES payment (id), -- multi: the money held for it
  invoice_id  TEXT REFERENCES invoice (id), -- single: the invoice that taxed it
  expires_day TEXT CHECK (length(expires_day) = 10), -- the last day it is taken, as it was sold; null = no such day
  late_day    TEXT CHECK (length(late_day) = 10), -- a later one on the owner's word, null = none
  last_day    TEXT GENERATED ALWAYS AS (max(expires_day, coalesce(late_day, expires_day))) VIRTUAL,
  sold_ms     INTEGER NOT NULL,
  sold_day    TEXT NOT NULL CHECK (length(sold_day) = 10),
  sold_by     TEXT REFERENCES person (id),
  CHECK ((purpose = 'multi') = (payment_id IS NOT NULL)),
  CHECK ((purpose = 'single') = (invoice_id IS NOT NULL)),
  CHECK (purpose = 'multi' OR customer_id IS NOT NULL), -- its invoice names who bought it
  CHECK (expires_day IS NULL OR expires_day >= sold_day)
) STRICT;
CREATE INDEX voucher_customer ON voucher (customer_id);
CREATE INDEX voucher_payment ON voucher (payment_id);
CREATE TRIGGER voucher_no_update BEFORE UPDATE OF id, number, code, purpose, value_minor, customer_id, payment_id, invoice_id,
  expires_day, sold_ms, sold_day, sold_by ON voucher BEGIN SELECT RAISE(ABORT, 'a voucher stays as it was sold'); END;
CREATE TRIGGER voucher_late_only_later BEFORE UPDATE OF late_day ON voucher WHEN (NEW.late_day > OLD.last_day) IS NOT TRUE
BEGIN SELECT RAISE(ABORT, 'a voucher is taken longer, never shorter'); END;
CREATE TRIGGER voucher_no_delete BEFORE DELETE ON voucher BEGIN SELECT RAISE(ABORT, 'vouchers are kept'); END;

CREATE TABLE voucher_entry (              -- what became of a voucher, append-only: its balance is the sum
  seq          INTEGER PRIMARY KEY,
  voucher_id   TEXT NOT NULL REFERENCES voucher (id),
  kind         TEXT NOT NULL CHECK (kind IN ('sold','used','returned','paidBack','letGo','restored')), -- letGo: income after its last day; restored: held again
  amount_minor INTEGER NOT NULL CHECK (amount_minor <> 0), -- with tax; used, paidBack and letGo below zero
  net_minor    INTEGER NOT NULL,          -- single: the part of it before tax, held until used; multi: 0, its payment is held
  invoice_id   TEXT REFERENCES invoice (id), -- the document it stands on; null for money of a multi-purpose one
  at_ms        INTEGER NOT NULL,
  local_day    TEXT NOT NULL CHECK (length(local_day) = 10),
  by_id        TEXT REFERENCES person (id),
  CHECK ((kind IN ('sold','returned','restored')) = (amount_minor > 0))
) STRICT;
CREATE INDEX voucher_entry_voucher ON voucher_entry (voucher_id);
CREATE INDEX voucher_entry_invoice ON voucher_entry (invoice_id);
CREATE UNIQUE INDEX voucher_entry_sold_once ON voucher_entry (voucher_id) WHERE kind = 'sold';
CREATE TRIGGER voucher_entry_within BEFORE INSERT ON voucher_entry
WHEN NEW.amount_minor + (SELECT coalesce(sum(e.amount_minor), 0) FROM voucher_entry e WHERE e.voucher_id = NEW.voucher_id)
  NOT BETWEEN 0 AND (SELECT v.value_minor FROM voucher v WHERE v.id = NEW.voucher_id)
BEGIN SELECT RAISE(ABORT, 'a voucher holds between nothing and what it was sold for'); END;
CREATE TRIGGER voucher_entry_in_time BEFORE INSERT ON voucher_entry
WHEN NEW.kind = 'used' AND NEW.local_day > (SELECT v.last_day FROM voucher v WHERE v.id = NEW.voucher_id)
BEGIN SELECT RAISE(ABORT, 'a voucher is not taken after its last day'); END;
CREATE TRIGGER voucher_entry_after_end BEFORE INSERT ON voucher_entry
WHEN NEW.kind = 'letGo' AND (NEW.local_day > (SELECT v.last_day FROM voucher v WHERE v.id = NEW.voucher_id)) IS NOT TRUE
BEGIN SELECT RAISE(ABORT, 'a voucher is let go after its last day'); END;
CREATE TRIGGER voucher_entry_held_again BEFORE INSERT ON voucher_entry
WHEN NEW.kind = 'restored' AND NEW.amount_minor + (SELECT coalesce(sum(e.amount_minor), 0) FROM voucher_entry e
  WHERE e.voucher_id = NEW.voucher_id AND e.kind IN ('letGo','restored')) > 0
BEGIN SELECT RAISE(ABORT, 'no more is held again than was let go'); END;
CREATE TRIGGER voucher_entry_no_update BEFORE UPDATE ON voucher_entry BEGIN SELECT RAISE(ABORT, 'entries of vouchers are append-only'); END;
CREATE TRIGGER voucher_entry_no_delete BEFORE DELETE ON voucher_entry BEGIN SELECT RAISE(ABORT, 'entries of vouchers are append-only'); END;

-- What is open: kept by triggers only, so that no list of it reads every document. The doctor works it out again.

CREATE TABLE document_rest (              -- what is left to pay of every issued document but credit notes
  invoice_id TEXT PRIMARY KEY REFERENCES invoice (id),
  due_day    TEXT NOT NULL CHECK (length(due_day) = 10),
  owed_minor INTEGER NOT NULL             -- asked for, after its credit notes and what was laid on it; below zero: to pay back
) STRICT, WITHOUT ROWID;
CREATE INDEX document_rest_open ON document_rest (due_day, owed_minor) WHERE owed_minor <> 0;
CREATE TRIGGER invoice_issued_rest AFTER UPDATE OF number ON invoice WHEN NEW.number IS NOT NULL AND NEW.kind <> 'credit'
BEGIN INSERT INTO document_rest (invoice_id, due_day, owed_minor) VALUES (NEW.id, NEW.due_day, NEW.to_pay_minor); END;
CREATE TRIGGER invoice_credited_rest AFTER UPDATE OF number ON invoice WHEN NEW.number IS NOT NULL AND NEW.kind = 'credit'
BEGIN UPDATE document_rest SET owed_minor = owed_minor + NEW.to_pay_minor WHERE invoice_id = NEW.of_invoice_id; END;
CREATE TRIGGER allocation_rest AFTER INSERT ON allocation
BEGIN UPDATE document_rest SET owed_minor = owed_minor - NEW.amount_minor WHERE invoice_id = NEW.invoice_id; END;

CREATE TABLE billed_share (               -- how much of a job's work each invoice about it bills, drafts too
  job_id     TEXT NOT NULL REFERENCES job (id),
  invoice_id TEXT NOT NULL REFERENCES invoice (id),
  share_ppm  INTEGER NOT NULL CHECK (share_ppm BETWEEN 0 AND 1000000), -- all of the work; half of it where two payers split it; none with goods that no quote had, or a fee
  issued     INTEGER NOT NULL CHECK (issued IN (0, 1)),
  stands     INTEGER NOT NULL CHECK (stands IN (0, 1)), -- 0 once credit notes took all that the job has on it
  PRIMARY KEY (job_id, invoice_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX billed_share_invoice ON billed_share (invoice_id);

CREATE VIEW billed_share_now AS           -- the same from the documents themselves
  SELECT coalesce(i.job_id, b.job_id) AS job_id, i.id AS invoice_id,
    (SELECT CASE WHEN total(l.value ->> 'what' = 'share') > 0 THEN 500000
       WHEN total(l.value ->> 'what' IN ('materials','package','panel','job') OR l.value ->> 'what' LIKE 'labour.%'
         OR l.value ->> 'quoted' IS NOT NULL) > 0 THEN 1000000
       ELSE 0 END FROM json_each(i.bill, '$.lines') l) AS share_ppm,
    i.number IS NOT NULL AS issued,
    NOT EXISTS (SELECT 1 FROM invoice k WHERE k.of_invoice_id = i.id AND k.number IS NOT NULL) OR NOT (
      (i.to_pay_minor + (SELECT sum(k.to_pay_minor) FROM invoice k WHERE k.of_invoice_id = i.id AND k.number IS NOT NULL) = 0
        AND (NOT EXISTS (SELECT 1 FROM json_each(i.bill, '$.lines') l WHERE l.value ->> 'what' IN ('deposit','billed','voucher'))
          OR EXISTS (SELECT 1 FROM invoice k, json_each(k.bill, '$.lines') l
            WHERE k.of_invoice_id = i.id AND k.number IS NOT NULL AND l.value ->> 'what' IN ('deposit','billed','voucher'))))
      OR (i.job_id IS NULL AND (SELECT sum(shown) = 0 AND max(shown) > 0 FROM (
        SELECT json_extract(k.totals, '$.lineShownMinor[' || l.key || ']') AS shown
        FROM invoice k, json_each(k.bill, '$.lines') l
        WHERE (k.id = i.id OR (k.of_invoice_id = i.id AND k.number IS NOT NULL)) AND l.value ->> 'ofJob' = b.job_id)) IS TRUE)
    ) AS stands
  FROM invoice i LEFT JOIN billed_job b ON b.invoice_id = i.id AND i.job_id IS NULL
  WHERE i.kind = 'invoice' AND coalesce(i.job_id, b.job_id) IS NOT NULL;

CREATE TRIGGER invoice_share_made AFTER INSERT ON invoice WHEN NEW.kind = 'invoice' AND NEW.job_id IS NOT NULL
BEGIN INSERT INTO billed_share SELECT * FROM billed_share_now WHERE invoice_id = NEW.id; END;
CREATE TRIGGER invoice_share_changed AFTER UPDATE OF bill, number ON invoice WHEN NEW.kind = 'invoice' BEGIN
  DELETE FROM billed_share WHERE invoice_id = NEW.id;
  INSERT INTO billed_share SELECT * FROM billed_share_now WHERE invoice_id = NEW.id;
END;
CREATE TRIGGER invoice_share_credited AFTER UPDATE OF number ON invoice WHEN NEW.kind = 'credit' AND NEW.number IS NOT NULL BEGIN
  DELETE FROM billed_share WHERE invoice_id = NEW.of_invoice_id;
  INSERT INTO billed_share SELECT * FROM billed_share_now WHERE invoice_id = NEW.of_invoice_id;
END;
CREATE TRIGGER invoice_share_gone BEFORE DELETE ON invoice
BEGIN DELETE FROM billed_share WHERE invoice_id = OLD.id; END;
CREATE TRIGGER billed_job_share AFTER INSERT ON billed_job
BEGIN INSERT INTO billed_share SELECT * FROM billed_share_now WHERE invoice_id = NEW.invoice_id AND job_id = NEW.job_id; END;
CREATE TRIGGER billed_job_share_gone AFTER DELETE ON billed_job
BEGIN DELETE FROM billed_share WHERE invoice_id = OLD.invoice_id AND job_id = OLD.job_id; END;

CREATE TABLE job_unbilled (               -- jobs that are ready or gone whose work no issued invoices that stand bill wholly
  job_id TEXT PRIMARY KEY REFERENCES job (id)
) STRICT, WITHOUT ROWID;
CREATE VIEW job_unbilled_now AS           -- the same from the jobs themselves; work redone under warranty is not billed
  SELECT j.id AS job_id FROM job j WHERE j.state IN ('ready','collected') AND j.redo_of_job_id IS NULL
    AND (SELECT total(b.share_ppm) FROM billed_share b WHERE b.job_id = j.id AND b.issued AND b.stands) < 1000000;
CREATE TRIGGER job_unbilled_made AFTER INSERT ON job WHEN NEW.state IN ('ready','collected')
BEGIN INSERT INTO job_unbilled SELECT job_id FROM job_unbilled_now WHERE job_id = NEW.id; END;
CREATE TRIGGER job_unbilled_state AFTER UPDATE OF state, redo_of_job_id ON job BEGIN
  DELETE FROM job_unbilled WHERE job_id = NEW.id;
  INSERT INTO job_unbilled SELECT job_id FROM job_unbilled_now WHERE job_id = NEW.id;
END;
CREATE TRIGGER job_unbilled_billed AFTER INSERT ON billed_share WHEN NEW.issued = 1 BEGIN
  DELETE FROM job_unbilled WHERE job_id = NEW.job_id;
  INSERT INTO job_unbilled SELECT job_id FROM job_unbilled_now WHERE job_id = NEW.job_id;
END;

CREATE TABLE collective_net (             -- what each job has of an issued document for several, before tax
  invoice_id TEXT NOT NULL REFERENCES invoice (id),
  job_id     TEXT NOT NULL REFERENCES job (id),
  net_minor  INTEGER NOT NULL,            -- of its lines, with its part of what is on the whole; all jobs sum to the document's net
  PRIMARY KEY (invoice_id, job_id)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER collective_net_of_issued BEFORE INSERT ON collective_net
WHEN NOT EXISTS (SELECT 1 FROM billed_job b JOIN invoice i ON i.id = b.invoice_id
  WHERE b.invoice_id = NEW.invoice_id AND b.job_id = NEW.job_id AND i.number IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'parts repeat an issued document'); END;
CREATE TRIGGER collective_net_no_update BEFORE UPDATE ON collective_net BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;
CREATE TRIGGER collective_net_no_delete BEFORE DELETE ON collective_net BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;

CREATE INDEX payment_deposit ON payment (job_id) WHERE kind = 'deposit';
CREATE INDEX payment_credit ON payment (customer_id) WHERE kind = 'credit';
CREATE INDEX invoice_prepayment ON invoice (job_id) WHERE kind = 'prepayment';
