-- Written by `npm run schema`; do not edit.

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

CREATE VIEW job_unbilled_now AS           -- the same from the jobs themselves; work redone under warranty is not billed
  SELECT j.id AS job_id FROM job j WHERE j.state IN ('ready','collected') AND j.redo_of_job_id IS NULL
    AND (SELECT total(b.share_ppm) FROM billed_share b WHERE b.job_id = j.id AND b.issued AND b.stands) < 1000000;

CREATE VIEW kept_mark AS SELECT job_id, from_min, to_min FROM kept_stale;

CREATE TRIGGER allocation_no_delete BEFORE DELETE ON allocation BEGIN SELECT RAISE(ABORT, 'allocations are append-only'); END;

CREATE TRIGGER allocation_no_update BEFORE UPDATE ON allocation BEGIN SELECT RAISE(ABORT, 'allocations are append-only'); END;

CREATE TRIGGER allocation_on_issued BEFORE INSERT ON allocation
WHEN NOT EXISTS (SELECT 1 FROM invoice i WHERE i.id = NEW.invoice_id AND i.number IS NOT NULL AND i.kind <> 'credit')
BEGIN SELECT RAISE(ABORT, 'money settles issued invoices'); END;

CREATE TRIGGER allocation_rest AFTER INSERT ON allocation
BEGIN UPDATE document_rest SET owed_minor = owed_minor - NEW.amount_minor WHERE invoice_id = NEW.invoice_id; END;

CREATE TRIGGER billed_job_no_delete BEFORE DELETE ON billed_job
WHEN EXISTS (SELECT 1 FROM invoice i WHERE i.id = OLD.invoice_id AND i.number IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;

CREATE TRIGGER billed_job_no_insert BEFORE INSERT ON billed_job
WHEN EXISTS (SELECT 1 FROM invoice i WHERE i.id = NEW.invoice_id AND i.number IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;

CREATE TRIGGER billed_job_no_update BEFORE UPDATE ON billed_job BEGIN SELECT RAISE(ABORT, 'the jobs of an invoice are kept'); END;

CREATE TRIGGER billed_job_share AFTER INSERT ON billed_job
BEGIN INSERT INTO billed_share SELECT * FROM billed_share_now WHERE invoice_id = NEW.invoice_id AND job_id = NEW.job_id; END;

CREATE TRIGGER billed_job_share_gone AFTER DELETE ON billed_job
BEGIN DELETE FROM billed_share WHERE invoice_id = OLD.invoice_id AND job_id = OLD.job_id; END;

CREATE TRIGGER car_record_no_delete BEFORE DELETE ON car_record
  BEGIN SELECT RAISE(ABORT, 'car records are kept'); END;

CREATE TRIGGER car_record_no_update BEFORE UPDATE OF id, job_id, kind, at_ms, late_min, mileage, mileage_unit, key_count,
  damage, pictures_record, pictures_publish, agreed_way, locale, person_id ON car_record
  BEGIN SELECT RAISE(ABORT, 'car records are kept as written'); END;

CREATE TRIGGER car_record_note_kept BEFORE UPDATE OF note ON car_record WHEN NEW.note NOT IN ('', OLD.note)
  BEGIN SELECT RAISE(ABORT, 'car records are kept as written'); END;

CREATE TRIGGER cash_count_no_delete BEFORE DELETE ON cash_count BEGIN SELECT RAISE(ABORT, 'counts of the till are append-only'); END;

CREATE TRIGGER cash_count_no_update BEFORE UPDATE ON cash_count BEGIN SELECT RAISE(ABORT, 'counts of the till are append-only'); END;

CREATE TRIGGER charge_no_delete BEFORE DELETE ON charge BEGIN SELECT RAISE(ABORT, 'charges are kept'); END;

CREATE TRIGGER collective_net_no_delete BEFORE DELETE ON collective_net BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;

CREATE TRIGGER collective_net_no_update BEFORE UPDATE ON collective_net BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;

CREATE TRIGGER collective_net_of_issued BEFORE INSERT ON collective_net
WHEN NOT EXISTS (SELECT 1 FROM billed_job b JOIN invoice i ON i.id = b.invoice_id
  WHERE b.invoice_id = NEW.invoice_id AND b.job_id = NEW.job_id AND i.number IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'parts repeat an issued document'); END;

CREATE TRIGGER collective_net_sum AFTER INSERT ON collective_net BEGIN
  INSERT INTO job_sum (job_id, net_minor, drawn_minor) VALUES (NEW.job_id, NEW.net_minor, 0)
  ON CONFLICT (job_id) DO UPDATE SET net_minor = net_minor + excluded.net_minor;
END;

CREATE TRIGGER container_reading_no_delete BEFORE DELETE ON container_reading
  BEGIN SELECT RAISE(ABORT, 'readings are append-only'); END;

CREATE TRIGGER container_reading_no_update BEFORE UPDATE ON container_reading
  BEGIN SELECT RAISE(ABORT, 'readings are append-only'); END;

CREATE TRIGGER customer_no_delete BEFORE DELETE ON customer BEGIN SELECT RAISE(ABORT, 'customers are kept'); END;

CREATE TRIGGER deduction_no_delete BEFORE DELETE ON deduction BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;

CREATE TRIGGER deduction_no_update BEFORE UPDATE ON deduction BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;

CREATE TRIGGER draw_settled_no_delete BEFORE DELETE ON draw_settled
  BEGIN SELECT RAISE(ABORT, 'what was used is append-only'); END;

CREATE TRIGGER draw_settled_no_update BEFORE UPDATE ON draw_settled
  BEGIN SELECT RAISE(ABORT, 'what was used is append-only'); END;

CREATE TRIGGER draw_without_item_no_delete BEFORE DELETE ON draw_without_item
  BEGIN SELECT RAISE(ABORT, 'what was used is append-only'); END;

CREATE TRIGGER draw_without_item_no_update BEFORE UPDATE ON draw_without_item
  BEGIN SELECT RAISE(ABORT, 'what was used is append-only'); END;

CREATE TRIGGER estimate_no_delete BEFORE DELETE ON estimate BEGIN SELECT RAISE(ABORT, 'estimates are kept as they were'); END;

CREATE TRIGGER estimate_no_update BEFORE UPDATE ON estimate BEGIN SELECT RAISE(ABORT, 'estimates are kept as they were'); END;

CREATE TRIGGER film_reading_no_delete BEFORE DELETE ON film_reading BEGIN SELECT RAISE(ABORT, 'what was seen is kept as noted; it is only taken back'); END;

CREATE TRIGGER film_reading_no_update BEFORE UPDATE ON film_reading WHEN OLD.removed_ms IS NOT NULL OR NEW.removed_ms IS NULL
  OR (NEW.id, NEW.inspection_id, NEW.panel, NEW.phase, NEW.tenth_um, NEW.point, NEW.x, NEW.y, NEW.person_id, NEW.at_ms) IS NOT (OLD.id, OLD.inspection_id, OLD.panel, OLD.phase, OLD.tenth_um, OLD.point, OLD.x, OLD.y, OLD.person_id, OLD.at_ms)
  BEGIN SELECT RAISE(ABORT, 'what was seen is kept as noted; it is only taken back'); END;

CREATE TRIGGER finding_no_delete BEFORE DELETE ON finding BEGIN SELECT RAISE(ABORT, 'what was seen is kept as noted; it is only taken back'); END;

CREATE TRIGGER finding_no_update BEFORE UPDATE ON finding WHEN OLD.removed_ms IS NOT NULL OR NEW.removed_ms IS NULL
  OR (NEW.id, NEW.inspection_id, NEW.panel, NEW.defect, NEW.severity, NEW.low_tenth_um, NEW.high_tenth_um, NEW.note, NEW.person_id, NEW.at_ms) IS NOT (OLD.id, OLD.inspection_id, OLD.panel, OLD.defect, OLD.severity, OLD.low_tenth_um, OLD.high_tenth_um, OLD.note, OLD.person_id, OLD.at_ms)
  BEGIN SELECT RAISE(ABORT, 'what was seen is kept as noted; it is only taken back'); END;

CREATE TRIGGER invoice_born_unnumbered BEFORE INSERT ON invoice WHEN NEW.number IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'a document gets its number when it is issued'); END;

CREATE TRIGGER invoice_credited_rest AFTER UPDATE OF number ON invoice WHEN NEW.number IS NOT NULL AND NEW.kind = 'credit'
BEGIN UPDATE document_rest SET owed_minor = owed_minor + NEW.to_pay_minor WHERE invoice_id = NEW.of_invoice_id; END;

CREATE TRIGGER invoice_issued_no_delete BEFORE DELETE ON invoice WHEN OLD.number IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'an issued document is kept'); END;

CREATE TRIGGER invoice_issued_no_update BEFORE UPDATE ON invoice WHEN OLD.number IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;

CREATE TRIGGER invoice_issued_rest AFTER UPDATE OF number ON invoice WHEN NEW.number IS NOT NULL AND NEW.kind <> 'credit'
BEGIN INSERT INTO document_rest (invoice_id, due_day, owed_minor) VALUES (NEW.id, NEW.due_day, NEW.to_pay_minor); END;

CREATE TRIGGER invoice_no_gap BEFORE UPDATE OF number ON invoice
WHEN NEW.number IS NOT NULL
  AND NEW.number <> max((SELECT coalesce(max(number), 0) FROM invoice), (SELECT last_no FROM issue_check)) + 1
BEGIN SELECT RAISE(ABORT, 'document numbers have no gaps'); END;

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

CREATE TRIGGER invoice_share_made AFTER INSERT ON invoice WHEN NEW.kind = 'invoice' AND NEW.job_id IS NOT NULL
BEGIN INSERT INTO billed_share SELECT * FROM billed_share_now WHERE invoice_id = NEW.id; END;

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

CREATE TRIGGER invoice_tax_no_delete BEFORE DELETE ON invoice_tax BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;

CREATE TRIGGER invoice_tax_no_update BEFORE UPDATE ON invoice_tax BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;

CREATE TRIGGER invoice_tax_of_totals BEFORE INSERT ON invoice_tax
WHEN NOT EXISTS (
  SELECT 1 FROM invoice i, json_each(i.totals, '$.taxes') t
  WHERE i.id = NEW.invoice_id AND i.number IS NOT NULL
    AND t.value ->> 'category' = NEW.category AND t.value ->> 'name' = NEW.name AND t.value ->> 'ratePpm' = NEW.rate_ppm
    AND t.value ->> 'taxableMinor' = NEW.taxable_minor AND t.value ->> 'taxMinor' = NEW.tax_minor
    AND coalesce(t.value ->> 'netMinor', t.value ->> 'taxableMinor') = NEW.net_minor)
BEGIN SELECT RAISE(ABORT, 'tax rows repeat an issued document'); END;

CREATE TRIGGER invoice_tax_sum AFTER INSERT ON invoice_tax BEGIN
  INSERT INTO job_sum (job_id, net_minor, drawn_minor)
  SELECT i.job_id, NEW.net_minor, 0 FROM invoice i WHERE i.id = NEW.invoice_id AND i.job_id IS NOT NULL
  ON CONFLICT (job_id) DO UPDATE SET net_minor = net_minor + excluded.net_minor;
END;

CREATE TRIGGER job_override_no_delete BEFORE DELETE ON job_override BEGIN SELECT RAISE(ABORT, 'overrides are append-only'); END;

CREATE TRIGGER job_override_no_update BEFORE UPDATE ON job_override BEGIN SELECT RAISE(ABORT, 'overrides are append-only'); END;

CREATE TRIGGER job_unbilled_billed AFTER INSERT ON billed_share WHEN NEW.issued = 1 BEGIN
  DELETE FROM job_unbilled WHERE job_id = NEW.job_id;
  INSERT INTO job_unbilled SELECT job_id FROM job_unbilled_now WHERE job_id = NEW.job_id;
END;

CREATE TRIGGER job_unbilled_made AFTER INSERT ON job WHEN NEW.state IN ('ready','collected')
BEGIN INSERT INTO job_unbilled SELECT job_id FROM job_unbilled_now WHERE job_id = NEW.id; END;

CREATE TRIGGER job_unbilled_state AFTER UPDATE OF state, redo_of_job_id ON job BEGIN
  DELETE FROM job_unbilled WHERE job_id = NEW.id;
  INSERT INTO job_unbilled SELECT job_id FROM job_unbilled_now WHERE job_id = NEW.id;
END;

CREATE TRIGGER journal_no_delete BEFORE DELETE ON journal BEGIN SELECT RAISE(ABORT, 'journal is append-only'); END;

CREATE TRIGGER journal_no_update BEFORE UPDATE ON journal BEGIN SELECT RAISE(ABORT, 'journal is append-only'); END;

CREATE TRIGGER kept_absence_delete AFTER DELETE ON absence BEGIN
  INSERT INTO kept_mark VALUES ('', OLD.start_min, OLD.end_min);
END;

CREATE TRIGGER kept_absence_insert AFTER INSERT ON absence BEGIN
  INSERT INTO kept_mark VALUES ('', NEW.start_min, NEW.end_min);
END;

CREATE TRIGGER kept_absence_update AFTER UPDATE ON absence BEGIN
  INSERT INTO kept_mark VALUES ('', OLD.start_min, OLD.end_min);
  INSERT INTO kept_mark VALUES ('', NEW.start_min, NEW.end_min);
END;

CREATE TRIGGER kept_bay_delete AFTER DELETE ON bay BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;

CREATE TRIGGER kept_bay_insert AFTER INSERT ON bay BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;

CREATE TRIGGER kept_bay_update AFTER UPDATE ON bay BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;

CREATE TRIGGER kept_closure_delete AFTER DELETE ON closure BEGIN
  INSERT INTO kept_mark VALUES ('', unixepoch(OLD.from_day) / 60 - 1440, unixepoch(OLD.to_day) / 60 + 2880);
END;

CREATE TRIGGER kept_closure_insert AFTER INSERT ON closure BEGIN
  INSERT INTO kept_mark VALUES ('', unixepoch(NEW.from_day) / 60 - 1440, unixepoch(NEW.to_day) / 60 + 2880);
END;

CREATE TRIGGER kept_closure_update AFTER UPDATE ON closure BEGIN
  INSERT INTO kept_mark VALUES ('', unixepoch(OLD.from_day) / 60 - 1440, unixepoch(OLD.to_day) / 60 + 2880);
  INSERT INTO kept_mark VALUES ('', unixepoch(NEW.from_day) / 60 - 1440, unixepoch(NEW.to_day) / 60 + 2880);
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

CREATE TRIGGER kept_job_update AFTER UPDATE OF vehicle_id, arrived_ms, collected_ms, ended_ms ON job BEGIN
  INSERT INTO kept_mark VALUES (OLD.id, coalesce(OLD.arrived_ms / 60000, 1000000000),
    iif(OLD.arrived_ms IS NULL, -1000000000, coalesce(coalesce(OLD.collected_ms, OLD.ended_ms) / 60000 + 1, 1000000000)));
END;

CREATE TRIGGER kept_mark_widen INSTEAD OF INSERT ON kept_mark BEGIN
  INSERT INTO kept_stale (job_id, from_min, to_min) VALUES (NEW.job_id, NEW.from_min, NEW.to_min)
  ON CONFLICT (job_id) DO UPDATE SET from_min = min(from_min, excluded.from_min), to_min = max(to_min, excluded.to_min)
  WHERE excluded.from_min < from_min OR excluded.to_min > to_min;
END;

CREATE TRIGGER kept_opening_hours_delete AFTER DELETE ON opening_hours BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;

CREATE TRIGGER kept_opening_hours_insert AFTER INSERT ON opening_hours BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;

CREATE TRIGGER kept_opening_hours_update AFTER UPDATE ON opening_hours BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;

CREATE TRIGGER kept_person_update AFTER UPDATE OF started_day, ended_day ON person
WHEN OLD.started_day <> NEW.started_day OR OLD.ended_day IS NOT NEW.ended_day BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;

CREATE TRIGGER kept_placement_delete AFTER DELETE ON placement BEGIN
  INSERT INTO kept_mark VALUES (OLD.job_id, 1000000000, -1000000000);
END;

CREATE TRIGGER kept_placement_insert AFTER INSERT ON placement BEGIN
  INSERT INTO kept_mark VALUES (NEW.job_id, 1000000000, -1000000000);
END;

CREATE TRIGGER kept_shift_delete AFTER DELETE ON shift BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;

CREATE TRIGGER kept_shift_insert AFTER INSERT ON shift BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;

CREATE TRIGGER kept_shift_update AFTER UPDATE ON shift BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;

CREATE TRIGGER kept_stage_delete AFTER DELETE ON job_stage BEGIN
  INSERT INTO kept_mark VALUES (OLD.job_id, coalesce(OLD.started_ms, OLD.done_ms, 1000000000 * 60000) / 60000,
    CASE WHEN OLD.done_ms IS NOT NULL THEN OLD.done_ms / 60000 + OLD.dwell_min + 1
      WHEN OLD.started_ms IS NULL THEN -1000000000
      WHEN OLD.state = 'dropped' THEN OLD.started_ms / 60000 + OLD.p50_min + OLD.dwell_min + 1 ELSE 1000000000 END);
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

CREATE TRIGGER kept_stay_delete AFTER DELETE ON stay BEGIN
  INSERT INTO kept_mark VALUES (OLD.job_id, 1000000000, -1000000000);
END;

CREATE TRIGGER kept_stay_insert AFTER INSERT ON stay BEGIN
  INSERT INTO kept_mark VALUES (NEW.job_id, 1000000000, -1000000000);
END;

CREATE TRIGGER kept_stay_update AFTER UPDATE ON stay BEGIN
  INSERT INTO kept_mark VALUES (NEW.job_id, 1000000000, -1000000000);
END;

CREATE TRIGGER kept_technician_delete AFTER DELETE ON technician BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;

CREATE TRIGGER kept_technician_insert AFTER INSERT ON technician BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;

CREATE TRIGGER kept_work_delete AFTER DELETE ON stage_work BEGIN
  INSERT INTO kept_mark SELECT job_id, OLD.start_ms / 60000, coalesce(OLD.end_ms / 60000 + 1, 1000000000) FROM job_stage WHERE id = OLD.stage_id;
END;

CREATE TRIGGER kept_work_insert AFTER INSERT ON stage_work BEGIN
  INSERT INTO kept_mark SELECT job_id, 1000000000, -1000000000 FROM job_stage WHERE id = NEW.stage_id;
END;

CREATE TRIGGER kept_work_update AFTER UPDATE ON stage_work BEGIN
  INSERT INTO kept_mark SELECT job_id, OLD.start_ms / 60000, coalesce(OLD.end_ms / 60000 + 1, 1000000000) FROM job_stage WHERE id = OLD.stage_id;
  INSERT INTO kept_mark SELECT job_id, 1000000000, -1000000000 FROM job_stage WHERE id = NEW.stage_id;
END;

CREATE TRIGGER kept_zone AFTER UPDATE OF zone ON shop
WHEN OLD.zone <> NEW.zone BEGIN
  INSERT INTO kept_mark VALUES ('', -1000000000, 1000000000);
END;

CREATE TRIGGER list_price_no_delete BEFORE DELETE ON list_price BEGIN SELECT RAISE(ABORT, 'prices are kept'); END;

CREATE TRIGGER package_price_no_delete BEFORE DELETE ON package_price BEGIN SELECT RAISE(ABORT, 'packages are kept'); END;

CREATE TRIGGER pad_event_level AFTER INSERT ON pad_event BEGIN
  UPDATE pad_level SET pieces = pieces - NEW.pieces WHERE batch_id = NEW.batch_id AND state = NEW.from_state;
  INSERT INTO pad_level (batch_id, state, pieces, uses) VALUES (NEW.batch_id, NEW.to_state, NEW.pieces, NEW.used * NEW.pieces)
  ON CONFLICT (batch_id, state) DO UPDATE SET pieces = pieces + NEW.pieces, uses = uses + NEW.used * NEW.pieces;
END;

CREATE TRIGGER pad_event_no_delete BEFORE DELETE ON pad_event BEGIN SELECT RAISE(ABORT, 'pad events are append-only'); END;

CREATE TRIGGER pad_event_no_update BEFORE UPDATE ON pad_event BEGIN SELECT RAISE(ABORT, 'pad events are append-only'); END;

CREATE TRIGGER pad_event_sum AFTER INSERT ON pad_event WHEN NEW.used = 1 AND NEW.job_id IS NOT NULL BEGIN
  INSERT INTO job_sum (job_id, net_minor, drawn_minor) VALUES (NEW.job_id, 0, 0) ON CONFLICT (job_id) DO NOTHING;
  UPDATE job_sum SET uses = (SELECT json_set(uses, path, coalesce(json_extract(uses, path), 0) + NEW.pieces)
      FROM (SELECT '$."' || b.item_id || '"' AS path FROM pad_batch b WHERE b.id = NEW.batch_id))
    WHERE job_id = NEW.job_id;
END;

CREATE TRIGGER paper_print_no_delete BEFORE DELETE ON paper_print BEGIN SELECT RAISE(ABORT, 'prints are append-only'); END;

CREATE TRIGGER paper_print_no_update BEFORE UPDATE ON paper_print BEGIN SELECT RAISE(ABORT, 'prints are append-only'); END;

CREATE TRIGGER partial_line_billed_once BEFORE INSERT ON partial_line
WHEN (SELECT NOT (billed BETWEEN min(0, whole) AND max(0, whole)) FROM (SELECT
    NEW.amount_minor + (SELECT coalesce(sum(p.amount_minor), 0) FROM partial_line p
      WHERE p.quote_id = NEW.quote_id AND p.letter = NEW.letter AND p.line = NEW.line) AS billed,
    coalesce((SELECT CAST(round(1.0 * (l.value ->> 'quantity') * (l.value ->> 'priceMinor') / (l.value ->> 'per')) AS INTEGER)
        - (l.value ->> 'discountMinor') FROM json_each(o.bill, '$.lines') l WHERE l.key = NEW.line),
      json_extract(o.bill, '$.extras[' || (NEW.line - json_array_length(o.bill, '$.lines')) || '].amountMinor'), 0) AS whole
  FROM quote_option o WHERE o.quote_id = NEW.quote_id AND o.letter = NEW.letter))
BEGIN SELECT RAISE(ABORT, 'no part of a line is billed twice'); END;

CREATE TRIGGER partial_line_no_delete BEFORE DELETE ON partial_line BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;

CREATE TRIGGER partial_line_no_update BEFORE UPDATE ON partial_line BEGIN SELECT RAISE(ABORT, 'an issued document never changes'); END;

CREATE TRIGGER payment_no_delete BEFORE DELETE ON payment BEGIN SELECT RAISE(ABORT, 'payments are append-only'); END;

CREATE TRIGGER payment_no_update BEFORE UPDATE ON payment BEGIN SELECT RAISE(ABORT, 'payments are append-only'); END;

CREATE TRIGGER person_no_delete BEFORE DELETE ON person BEGIN SELECT RAISE(ABORT, 'people are kept'); END;

CREATE TRIGGER picture_no_delete BEFORE DELETE ON picture BEGIN SELECT RAISE(ABORT, 'what was seen is kept as noted; it is only taken back'); END;

CREATE TRIGGER picture_no_update BEFORE UPDATE ON picture WHEN OLD.removed_ms IS NOT NULL OR NEW.removed_ms IS NULL
  OR (NEW.id, NEW.job_id, NEW.panel, NEW.phase, NEW.hash, NEW.mime, NEW.consent, NEW.person_id, NEW.taken_ms) IS NOT (OLD.id, OLD.job_id, OLD.panel, OLD.phase, OLD.hash, OLD.mime, OLD.consent, OLD.person_id, OLD.taken_ms)
  BEGIN SELECT RAISE(ABORT, 'what was seen is kept as noted; it is only taken back'); END;

CREATE TRIGGER placement_no_overlap BEFORE INSERT ON placement
WHEN NEW.person_id IS NOT NULL AND EXISTS (
  SELECT 1 FROM placement WHERE person_id = NEW.person_id AND start_min < NEW.end_min AND end_min > NEW.start_min)
BEGIN SELECT RAISE(ABORT, 'one person at two cars'); END;

CREATE TRIGGER placement_no_update BEFORE UPDATE ON placement
  BEGIN SELECT RAISE(ABORT, 'placements are lifted and set again'); END;

CREATE TRIGGER quote_option_no_delete BEFORE DELETE ON quote_option BEGIN SELECT RAISE(ABORT, 'a quoted option is kept as it was'); END;

CREATE TRIGGER quote_option_no_update BEFORE UPDATE ON quote_option BEGIN SELECT RAISE(ABORT, 'a quoted option is kept as it was'); END;

CREATE TRIGGER rate_no_delete BEFORE DELETE ON rate BEGIN SELECT RAISE(ABORT, 'rates are kept'); END;

CREATE TRIGGER sanding_consent_no_delete BEFORE DELETE ON sanding_consent BEGIN SELECT RAISE(ABORT, 'what was agreed is kept; it is only taken back'); END;

CREATE TRIGGER shop_logo_no_delete BEFORE DELETE ON shop_logo BEGIN SELECT RAISE(ABORT, 'documents keep the logo they were issued under'); END;

CREATE TRIGGER shop_no_delete BEFORE DELETE ON shop BEGIN SELECT RAISE(ABORT, 'the shop is kept'); END;

CREATE TRIGGER stage_note_no_delete BEFORE DELETE ON stage_note BEGIN SELECT RAISE(ABORT, 'stage notes are append-only'); END;

CREATE TRIGGER stage_note_no_update BEFORE UPDATE ON stage_note BEGIN SELECT RAISE(ABORT, 'stage notes are append-only'); END;

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

CREATE TRIGGER stay_no_overlap BEFORE INSERT ON stay
WHEN (SELECT capacity FROM bay WHERE id = NEW.bay_id) = 1 AND EXISTS (
  SELECT 1 FROM stay WHERE bay_id = NEW.bay_id AND arrive_min < NEW.leave_min AND leave_min > NEW.arrive_min)
BEGIN SELECT RAISE(ABORT, 'two cars in one bay'); END;

CREATE TRIGGER stay_one_place BEFORE INSERT ON stay
WHEN EXISTS (
  SELECT 1 FROM stay WHERE job_id = NEW.job_id AND arrive_min < NEW.leave_min AND leave_min > NEW.arrive_min)
BEGIN SELECT RAISE(ABORT, 'one car in two places'); END;

CREATE TRIGGER stay_only_cut BEFORE UPDATE ON stay
WHEN NEW.id <> OLD.id OR NEW.job_id <> OLD.job_id OR NEW.bay_id <> OLD.bay_id
  OR NEW.arrive_min < OLD.arrive_min OR NEW.leave_min > OLD.leave_min
BEGIN SELECT RAISE(ABORT, 'stays are cut, or lifted and set again'); END;

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

CREATE TRIGGER stock_movement_no_delete BEFORE DELETE ON stock_movement
  BEGIN SELECT RAISE(ABORT, 'the stock ledger is append-only'); END;

CREATE TRIGGER stock_movement_no_update BEFORE UPDATE ON stock_movement
  BEGIN SELECT RAISE(ABORT, 'the stock ledger is append-only'); END;

CREATE TRIGGER stock_movement_sum AFTER INSERT ON stock_movement WHEN NEW.job_id IS NOT NULL BEGIN
  INSERT INTO job_sum (job_id, net_minor, drawn_minor) VALUES (NEW.job_id, 0, -NEW.value_minor)
  ON CONFLICT (job_id) DO UPDATE SET drawn_minor = drawn_minor + excluded.drawn_minor;
END;

CREATE TRIGGER tax_rate_no_delete BEFORE DELETE ON tax_rate BEGIN SELECT RAISE(ABORT, 'tax rates are kept'); END;

CREATE TRIGGER test_spot_no_delete BEFORE DELETE ON test_spot BEGIN SELECT RAISE(ABORT, 'test spots are kept as they were'); END;

CREATE TRIGGER test_spot_no_update BEFORE UPDATE ON test_spot BEGIN SELECT RAISE(ABORT, 'test spots are kept as they were'); END;

CREATE TRIGGER vehicle_keeper_no_delete BEFORE DELETE ON vehicle_keeper BEGIN SELECT RAISE(ABORT, 'keepers are append-only'); END;

CREATE TRIGGER vehicle_keeper_no_update BEFORE UPDATE ON vehicle_keeper BEGIN SELECT RAISE(ABORT, 'keepers are append-only'); END;

CREATE TRIGGER vehicle_no_delete BEFORE DELETE ON vehicle BEGIN SELECT RAISE(ABORT, 'vehicles are kept'); END;

CREATE TRIGGER voucher_entry_after_end BEFORE INSERT ON voucher_entry
WHEN NEW.kind = 'letGo' AND (NEW.local_day > (SELECT v.last_day FROM voucher v WHERE v.id = NEW.voucher_id)) IS NOT TRUE
BEGIN SELECT RAISE(ABORT, 'a voucher is let go after its last day'); END;

CREATE TRIGGER voucher_entry_held_again BEFORE INSERT ON voucher_entry
WHEN NEW.kind = 'restored' AND NEW.amount_minor + (SELECT coalesce(sum(e.amount_minor), 0) FROM voucher_entry e
  WHERE e.voucher_id = NEW.voucher_id AND e.kind IN ('letGo','restored')) > 0
BEGIN SELECT RAISE(ABORT, 'no more is held again than was let go'); END;

CREATE TRIGGER voucher_entry_in_time BEFORE INSERT ON voucher_entry
WHEN NEW.kind = 'used' AND NEW.local_day > (SELECT v.last_day FROM voucher v WHERE v.id = NEW.voucher_id)
BEGIN SELECT RAISE(ABORT, 'a voucher is not taken after its last day'); END;

CREATE TRIGGER voucher_entry_no_delete BEFORE DELETE ON voucher_entry BEGIN SELECT RAISE(ABORT, 'entries of vouchers are append-only'); END;

CREATE TRIGGER voucher_entry_no_update BEFORE UPDATE ON voucher_entry BEGIN SELECT RAISE(ABORT, 'entries of vouchers are append-only'); END;

CREATE TRIGGER voucher_entry_sum AFTER INSERT ON voucher_entry WHEN NEW.invoice_id IS NOT NULL BEGIN
  INSERT INTO job_sum (job_id, net_minor, drawn_minor)
  SELECT i.job_id, -NEW.net_minor, 0 FROM invoice i WHERE i.id = NEW.invoice_id AND i.job_id IS NOT NULL
  ON CONFLICT (job_id) DO UPDATE SET net_minor = net_minor + excluded.net_minor;
END;

CREATE TRIGGER voucher_entry_within BEFORE INSERT ON voucher_entry
WHEN NEW.amount_minor + (SELECT coalesce(sum(e.amount_minor), 0) FROM voucher_entry e WHERE e.voucher_id = NEW.voucher_id)
  NOT BETWEEN 0 AND (SELECT v.value_minor FROM voucher v WHERE v.id = NEW.voucher_id)
BEGIN SELECT RAISE(ABORT, 'a voucher holds between nothing and what it was sold for'); END;

CREATE TRIGGER voucher_late_only_later BEFORE UPDATE OF late_day ON voucher WHEN (NEW.late_day > OLD.last_day) IS NOT TRUE
BEGIN SELECT RAISE(ABORT, 'a voucher is taken longer, never shorter'); END;

CREATE TRIGGER voucher_no_delete BEFORE DELETE ON voucher BEGIN SELECT RAISE(ABORT, 'vouchers are kept'); END;

CREATE TRIGGER voucher_no_update BEFORE UPDATE OF id, number, code, purpose, value_minor, customer_id, payment_id, invoice_id,
  expires_day, sold_ms, sold_day, sold_by ON voucher BEGIN SELECT RAISE(ABORT, 'a voucher stays as it was sold'); END;

CREATE TABLE absence (                    -- owned by core/bays
  id        TEXT PRIMARY KEY,
  person_id TEXT NOT NULL REFERENCES person (id),
  start_min INTEGER NOT NULL,
  end_min   INTEGER NOT NULL CHECK (end_min > start_min),
  reason    TEXT NOT NULL
) STRICT;

CREATE TABLE allocation (                 -- which money settles which document, append-only
  id           INTEGER PRIMARY KEY,
  payment_id   TEXT NOT NULL REFERENCES payment (id),
  invoice_id   TEXT NOT NULL REFERENCES invoice (id),
  amount_minor INTEGER NOT NULL CHECK (amount_minor <> 0), -- negative for a refund
  at_ms        INTEGER NOT NULL,
  local_day    TEXT NOT NULL CHECK (length(local_day) = 10)
) STRICT;

CREATE TABLE answered (                   -- replies by command id, so that a repeat is answered, not done twice; owned by dispatch
  command_id TEXT PRIMARY KEY,
  name       TEXT NOT NULL,
  at_ms      INTEGER NOT NULL,
  reply      TEXT NOT NULL CHECK (json_valid(reply))
) STRICT;

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

CREATE TABLE billed_job (                 -- the jobs that a collective invoice bills
  invoice_id TEXT NOT NULL REFERENCES invoice (id),
  job_id     TEXT NOT NULL REFERENCES job (id),
  PRIMARY KEY (invoice_id, job_id)
) STRICT, WITHOUT ROWID;

CREATE TABLE billed_share (               -- how much of a job's work each invoice about it bills, drafts too
  job_id     TEXT NOT NULL REFERENCES job (id),
  invoice_id TEXT NOT NULL REFERENCES invoice (id),
  share_ppm  INTEGER NOT NULL CHECK (share_ppm BETWEEN 0 AND 1000000), -- all of the work; half of it where two payers split it; none with goods that no quote had, or a fee
  issued     INTEGER NOT NULL CHECK (issued IN (0, 1)),
  stands     INTEGER NOT NULL CHECK (stands IN (0, 1)), -- 0 once credit notes took all that the job has on it
  PRIMARY KEY (job_id, invoice_id)
) STRICT, WITHOUT ROWID;

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

CREATE TABLE closure (                    -- owned by core/bays
  id       TEXT PRIMARY KEY,
  from_day TEXT NOT NULL,
  to_day   TEXT NOT NULL CHECK (to_day >= from_day), -- included
  bay_id   TEXT REFERENCES bay (id),      -- null = the whole shop: nobody works, cars may stand
  reason   TEXT NOT NULL
) STRICT;

CREATE TABLE collective_net (             -- what each job has of an issued document for several, before tax
  invoice_id TEXT NOT NULL REFERENCES invoice (id),
  job_id     TEXT NOT NULL REFERENCES job (id),
  net_minor  INTEGER NOT NULL,            -- of its lines, with its part of what is on the whole; all jobs sum to the document's net
  PRIMARY KEY (invoice_id, job_id)
) STRICT, WITHOUT ROWID;

CREATE TABLE conflict_seen (              -- conflicts somebody has taken note of; owned by core/bays
  conflict_key TEXT PRIMARY KEY,
  person_id    TEXT REFERENCES person (id),
  seen_ms      INTEGER NOT NULL
) STRICT;

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

CREATE TABLE deduction (                  -- a prepayment or partial invoice taken off on a final invoice by negative lines; again when that one was wholly credited
  prepayment_id TEXT NOT NULL REFERENCES invoice (id),
  invoice_id    TEXT NOT NULL REFERENCES invoice (id),
  taken_minor   INTEGER NOT NULL,         -- with tax: what it still asked for after its credit notes
  PRIMARY KEY (prepayment_id, invoice_id)
) STRICT, WITHOUT ROWID;

CREATE TABLE delivery (
  id          TEXT PRIMARY KEY,
  supplier_id TEXT NOT NULL REFERENCES supplier (id),
  order_id    TEXT REFERENCES purchase_order (id), -- null = came without an order
  came_day    TEXT NOT NULL,
  came_ms     INTEGER NOT NULL,
  person_id   TEXT REFERENCES person (id),
  note        TEXT NOT NULL
) STRICT;

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

CREATE TABLE document_rest (              -- what is left to pay of every issued document but credit notes
  invoice_id TEXT PRIMARY KEY REFERENCES invoice (id),
  due_day    TEXT NOT NULL CHECK (length(due_day) = 10),
  owed_minor INTEGER NOT NULL             -- asked for, after its credit notes and what was laid on it; below zero: to pay back
) STRICT, WITHOUT ROWID;

CREATE TABLE draw_settled (                -- such a use that was taken from an item after all or removed, append-only
  draw_id   INTEGER PRIMARY KEY REFERENCES draw_without_item (id),
  item_id   TEXT REFERENCES stock_item (id), -- null = removed
  why       TEXT NOT NULL,                 -- why it was removed, else ''
  person_id TEXT REFERENCES person (id),   -- null = the program itself
  at_ms     INTEGER NOT NULL,
  CHECK ((item_id IS NULL) = (why <> ''))
) STRICT;

CREATE TABLE draw_without_item (           -- what a stage used of a material that the shop keeps no item of, append-only
  id        INTEGER PRIMARY KEY,
  stage_id  TEXT NOT NULL REFERENCES job_stage (id),
  job_id    TEXT NOT NULL REFERENCES job (id),
  material  TEXT NOT NULL,
  amount    INTEGER NOT NULL CHECK (amount > 0), -- base units of the material
  person_id TEXT REFERENCES person (id),   -- null = the program itself
  at_ms     INTEGER NOT NULL
) STRICT;

CREATE TABLE dust_pair (                  -- bays in each other's dust; both null = all of them; owned by core/bays
  id    TEXT PRIMARY KEY,
  bay_a TEXT REFERENCES bay (id),
  bay_b TEXT REFERENCES bay (id),
  CHECK ((bay_a IS NULL) = (bay_b IS NULL)),
  CHECK (bay_a < bay_b),                  -- each pair once
  UNIQUE (bay_a, bay_b)
) STRICT;

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

CREATE TABLE hour_cost (                  -- what an hour of somebody's work costs the shop, for owners alone; owned by core/access
  person_id  TEXT NOT NULL REFERENCES person (id),
  from_day   TEXT NOT NULL CHECK (length(from_day) = 10), -- from this day until a later row
  hour_minor INTEGER NOT NULL CHECK (hour_minor >= 0),
  PRIMARY KEY (person_id, from_day)
) STRICT, WITHOUT ROWID;

CREATE TABLE inspection (                 -- one look at the paint per job, before and after work
  id         TEXT PRIMARY KEY,
  job_id     TEXT NOT NULL UNIQUE REFERENCES job (id),
  vehicle_id TEXT NOT NULL REFERENCES vehicle (id),
  person_id  TEXT REFERENCES person (id), -- who began it, null = the program
  started_ms INTEGER NOT NULL,
  revision   INTEGER NOT NULL DEFAULT 1
) STRICT;

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

CREATE TABLE issue_check (                -- one row: whether the next number must be confirmed against the last paper
  id      INTEGER PRIMARY KEY CHECK (id = 1),
  ask     INTEGER NOT NULL CHECK (ask IN (0, 1)), -- 1 after a restore: documents issued since the copy may exist on paper
  last_no INTEGER NOT NULL CHECK (last_no >= 0),  -- the highest number known from paper, 0 = none
  read_nos TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(read_nos)) -- every number read from paper: the series goes on behind each
) STRICT;

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

CREATE TABLE job_hand (                   -- time that somebody worked on a job, of stretches that have ended
  job_id    TEXT NOT NULL REFERENCES job (id),
  person_id TEXT NOT NULL REFERENCES person (id),
  worked_ms INTEGER NOT NULL CHECK (worked_ms >= 0),
  first_ms  INTEGER NOT NULL,              -- no stretch began before, or after last_ms; corrected ones may lie within
  last_ms   INTEGER NOT NULL CHECK (last_ms >= first_ms),
  PRIMARY KEY (job_id, person_id)
) STRICT, WITHOUT ROWID;

CREATE TABLE job_material (               -- what the plan expects to use per stage; owned by core/bookings
  stage_id TEXT NOT NULL REFERENCES job_stage (id),
  material TEXT NOT NULL,
  amount   INTEGER NOT NULL CHECK (amount >= 0), -- base units of the material
  PRIMARY KEY (stage_id, material)
) STRICT;

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

CREATE TABLE job_sum (                    -- what a job brought and took so far
  job_id      TEXT PRIMARY KEY REFERENCES job (id),
  net_minor   INTEGER NOT NULL,           -- before tax: its issued documents and its part of those with other jobs, less taxed vouchers that came off
  drawn_minor INTEGER NOT NULL,           -- book value of what the ledger of stock gave it
  uses        TEXT NOT NULL DEFAULT '{}' CHECK (json_valid(uses)) -- of single pads and towels by item: {itemId: uses}; many jobs have the same
) STRICT, WITHOUT ROWID;

CREATE TABLE job_unbilled (               -- jobs that are ready or gone whose work no issued invoices that stand bill wholly
  job_id TEXT PRIMARY KEY REFERENCES job (id)
) STRICT, WITHOUT ROWID;

CREATE TABLE journal (                    -- one row per write; owned by dispatch
  id        INTEGER PRIMARY KEY,
  at_ms     INTEGER NOT NULL,
  person_id TEXT REFERENCES person (id),  -- null = before anybody could say who they are
  command   TEXT NOT NULL,
  subjects  TEXT NOT NULL CHECK (json_valid(subjects)), -- ids of records touched
  fields    TEXT NOT NULL CHECK (json_valid(fields))    -- names of changed fields, never their values
) STRICT;

CREATE TABLE kept_day (                   -- days that are kept; owned by core/figures, like the three after it
  day       TEXT PRIMARY KEY,
  start_min INTEGER NOT NULL,             -- as the shop's zone has the day
  end_min   INTEGER NOT NULL CHECK (end_min > start_min)
) STRICT, WITHOUT ROWID;

CREATE TABLE kept_furthest (              -- the stages of a day furthest from their estimate
  day      TEXT NOT NULL,
  stage_id TEXT NOT NULL,
  done_ms  INTEGER NOT NULL,
  far      REAL NOT NULL CHECK (far >= 0), -- |log(actual / P50)|
  PRIMARY KEY (day, stage_id)
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

CREATE TABLE kept_stale (                 -- what has changed since the days were kept; emptied when the days are taken out
  job_id   TEXT PRIMARY KEY,              -- '' = what the shop has set
  from_min INTEGER NOT NULL,              -- what the change took away reached from here,
  to_min   INTEGER NOT NULL               -- to here; all that the job still has on record counts beside it
) STRICT, WITHOUT ROWID;

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

CREATE TABLE migration (number INTEGER PRIMARY KEY, name TEXT NOT NULL, hash TEXT NOT NULL, at_ms INTEGER NOT NULL) STRICT;

CREATE TABLE opening_hours (              -- owned by core/bays; several spans a day are allowed
  weekday   INTEGER NOT NULL CHECK (weekday BETWEEN 1 AND 7), -- ISO 8601, 1 = Monday
  kind      TEXT NOT NULL CHECK (kind IN ('shop', 'desk')), -- work and moves | handing cars over
  open_min  INTEGER NOT NULL CHECK (open_min BETWEEN 0 AND 1439), -- wall-clock minutes since midnight
  close_min INTEGER NOT NULL CHECK (close_min > open_min AND close_min <= 1440),
  PRIMARY KEY (kind, weekday, open_min)
) STRICT;

CREATE TABLE order_later (                 -- "not today", said by a person
  item_id   TEXT PRIMARY KEY REFERENCES stock_item (id),
  until_day TEXT NOT NULL,                 -- suggested again from this day on
  person_id TEXT NOT NULL REFERENCES person (id),
  at_ms     INTEGER NOT NULL
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

CREATE TABLE pad_batch (                   -- reusable pieces that came together
  id            TEXT PRIMARY KEY,
  item_id       TEXT NOT NULL REFERENCES stock_item (id),
  pieces        INTEGER NOT NULL CHECK (pieces > 0),
  uses_per_life INTEGER NOT NULL CHECK (uses_per_life > 0), -- expected when bought
  came_ms       INTEGER NOT NULL,
  note          TEXT NOT NULL
) STRICT;

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

CREATE TABLE pad_level (                   -- sum of pad events per batch and state, kept by trigger only
  batch_id TEXT NOT NULL REFERENCES pad_batch (id),
  state    TEXT NOT NULL,
  pieces   INTEGER NOT NULL CHECK (pieces >= 0),
  uses     INTEGER NOT NULL DEFAULT 0,     -- uses booked by events that ended in this state
  PRIMARY KEY (batch_id, state)
) STRICT, WITHOUT ROWID;

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

CREATE TABLE paper_print (                -- that an issued document was printed, append-only
  seq        INTEGER PRIMARY KEY,
  invoice_id TEXT NOT NULL REFERENCES invoice (id),
  at_ms      INTEGER NOT NULL,
  by_id      TEXT REFERENCES person (id)
) STRICT;

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

CREATE TABLE plan_state (                 -- counts changes of the plan, so that a stale offer is noticed; owned by core/bays
  id       INTEGER PRIMARY KEY CHECK (id = 1),
  revision INTEGER NOT NULL
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

CREATE TABLE rate (                       -- price of an attended hour; owned by core/shop
  id         TEXT PRIMARY KEY,
  applies    TEXT NOT NULL CHECK (applies IN ('all', 'skill', 'stage')), -- a stage kind beats a skill, a skill beats all
  subject    TEXT NOT NULL CHECK ((applies = 'all') = (subject = '')),   -- the skill or stage kind, '' for all
  from_day   TEXT NOT NULL CHECK (length(from_day) = 10), -- valid from this day until a later row
  hour_minor INTEGER NOT NULL CHECK (hour_minor >= 0), -- per person hour, with tax if the shop's prices include tax
  added_ms   INTEGER NOT NULL,
  UNIQUE (applies, subject, from_day)
) STRICT;

CREATE TABLE reminder (                   -- that somebody was reminded
  invoice_id TEXT NOT NULL REFERENCES invoice (id),
  level      INTEGER NOT NULL CHECK (level BETWEEN 1 AND 5),
  at_ms      INTEGER NOT NULL,
  by_id      TEXT REFERENCES person (id),
  PRIMARY KEY (invoice_id, level)
) STRICT, WITHOUT ROWID;

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

CREATE TABLE sequence (                   -- counters for short numbers; owned by core/db
  name TEXT PRIMARY KEY,
  next INTEGER NOT NULL CHECK (next > 0)
) STRICT;

CREATE TABLE session (                    -- who is at which window; owned by core/access
  token_hash TEXT PRIMARY KEY,            -- SHA-256 of the token, hex
  person_id  TEXT NOT NULL REFERENCES person (id),
  started_ms INTEGER NOT NULL,
  ended_ms   INTEGER                      -- null = open
) STRICT;

CREATE TABLE shift (                      -- weekly; a break is the gap between two rows; owned by core/bays
  person_id TEXT NOT NULL REFERENCES person (id),
  weekday   INTEGER NOT NULL CHECK (weekday BETWEEN 1 AND 7),
  start_min INTEGER NOT NULL CHECK (start_min BETWEEN 0 AND 1439), -- wall-clock minutes since midnight
  end_min   INTEGER NOT NULL CHECK (end_min > start_min AND end_min <= 1440),
  PRIMARY KEY (person_id, weekday, start_min)
) STRICT;

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

CREATE TABLE stage_gap (                  -- time between a stage and the next of the same car; owned by core/bays
  stage     TEXT PRIMARY KEY CHECK (stage IN ('inspection','wash','decontaminate','clay','mask','sand','cut','refine','panelWipe','protect','cure','interior','finalCheck','handover')),
  least_min INTEGER NOT NULL CHECK (least_min >= 0), -- minutes from its end, unattended time included
  most_min  INTEGER CHECK (most_min >= least_min)    -- null = the next may begin at any time
) STRICT;

CREATE TABLE stage_note (                 -- owned by core/bookings, append-only
  id        TEXT PRIMARY KEY,
  stage_id  TEXT NOT NULL REFERENCES job_stage (id),
  at_ms     INTEGER NOT NULL,
  person_id TEXT REFERENCES person (id),
  note      TEXT NOT NULL CHECK (length(note) BETWEEN 1 AND 1000)
) STRICT;

CREATE TABLE stage_panel (                -- panels finished within a stage; owned by core/bookings
  stage_id  TEXT NOT NULL REFERENCES job_stage (id),
  panel     TEXT NOT NULL,
  done_ms   INTEGER NOT NULL,
  person_id TEXT REFERENCES person (id),
  PRIMARY KEY (stage_id, panel)
) STRICT;

CREATE TABLE stage_share (                -- what was done of a stage when the job was stopped half way; owned by core/bookings
  stage_id  TEXT PRIMARY KEY REFERENCES job_stage (id),
  share_ppm INTEGER NOT NULL CHECK (share_ppm BETWEEN 0 AND 1000000),
  basis     TEXT NOT NULL CHECK (basis IN ('named', 'whole', 'panels', 'time', 'nothing'))
) STRICT;

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

CREATE TABLE stay (                       -- a car planned to stand in a place, nights included; owned by core/bays
  id         INTEGER PRIMARY KEY,
  job_id     TEXT NOT NULL REFERENCES job (id),
  bay_id     TEXT NOT NULL REFERENCES bay (id),
  arrive_min INTEGER NOT NULL,
  leave_min  INTEGER NOT NULL CHECK (leave_min > arrive_min)
) STRICT;

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

CREATE TABLE stock_level (                 -- sum of the ledger per item, kept by trigger only
  item_id         TEXT PRIMARY KEY REFERENCES stock_item (id),
  qty             INTEGER NOT NULL,        -- on hand by the book, below 0 after draws beyond it
  value_minor     INTEGER NOT NULL,
  last_cost_qty   INTEGER NOT NULL DEFAULT 0, -- latest receipt with a price: amount …
  last_cost_minor INTEGER NOT NULL DEFAULT 0  -- … and what it cost
) STRICT;

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

CREATE TABLE technician (                 -- what a person can do on the board; owned by core/bays
  person_id TEXT PRIMARY KEY REFERENCES person (id),
  skills    TEXT NOT NULL CHECK (json_valid(skills)),
  speed_ppm INTEGER NOT NULL CHECK (speed_ppm BETWEEN 200000 AND 3000000), -- 1000000 = the estimate's pace
  revision  INTEGER NOT NULL DEFAULT 1
) STRICT;

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

CREATE TABLE vehicle_keeper (             -- one row per change of hands; owned by core/vehicles
  vehicle_id  TEXT NOT NULL REFERENCES vehicle (id),
  customer_id TEXT NOT NULL REFERENCES customer (id),
  from_ms     INTEGER NOT NULL,           -- when the shop learned of it
  PRIMARY KEY (vehicle_id, from_ms)
) STRICT;

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

CREATE INDEX absence_person ON absence (person_id, start_min);

CREATE INDEX allocation_day ON allocation (local_day, invoice_id);

CREATE INDEX allocation_invoice ON allocation (invoice_id);

CREATE INDEX allocation_payment ON allocation (payment_id);

CREATE INDEX answered_at ON answered (at_ms);

CREATE INDEX billed_job_job ON billed_job (job_id);

CREATE INDEX billed_share_invoice ON billed_share (invoice_id);

CREATE INDEX car_record_job ON car_record (job_id, at_ms);

CREATE INDEX cash_count_day ON cash_count (local_day);

CREATE INDEX container_reading_container ON container_reading (container_id);

CREATE INDEX customer_name ON customer (name_key);

CREATE INDEX customer_phone ON customer (phone_key);

CREATE UNIQUE INDEX data_sheet_item ON data_sheet (item_id) WHERE removed_ms IS NULL;

CREATE INDEX delivery_line_delivery ON delivery_line (delivery_id);

CREATE INDEX delivery_supplier ON delivery (supplier_id);

CREATE INDEX document_rest_open ON document_rest (due_day, owed_minor) WHERE owed_minor <> 0;

CREATE INDEX draw_without_item_job ON draw_without_item (job_id);

CREATE INDEX film_reading_inspection ON film_reading (inspection_id, panel);

CREATE INDEX finding_inspection ON finding (inspection_id);

CREATE INDEX inspection_vehicle ON inspection (vehicle_id, started_ms);

CREATE INDEX invoice_asked ON invoice (id, to_pay_minor);

CREATE INDEX invoice_customer ON invoice (customer_id);

CREATE INDEX invoice_day ON invoice (issued_day, id);

CREATE INDEX invoice_job ON invoice (job_id);

CREATE INDEX invoice_of ON invoice (of_invoice_id);

CREATE INDEX invoice_prepayment ON invoice (job_id) WHERE kind = 'prepayment';

CREATE INDEX invoice_share ON invoice (share_of_id);

CREATE INDEX invoice_unasked ON invoice (issued_day) WHERE to_pay_minor = 0;

CREATE INDEX job_collected ON job (collected_ms, redo_of_job_id, id, number, purpose, arrived_ms) WHERE collected_ms IS NOT NULL;

CREATE INDEX job_customer ON job (customer_id, redo_of_job_id, collected_ms);

CREATE INDEX job_drop_off ON job (drop_off_min);

CREATE INDEX job_override_job ON job_override (job_id);

CREATE INDEX job_presence ON job (arrived_ms, collected_ms, ended_ms) WHERE arrived_ms IS NOT NULL;

CREATE INDEX job_redo ON job (redo_of_job_id) WHERE redo_of_job_id IS NOT NULL;

CREATE INDEX job_stage_done ON job_stage (done_ms, id, job_id, kind, estimated_min, state)
  WHERE state = 'done' AND done_ms IS NOT NULL AND estimated_min > 0;

CREATE INDEX job_stage_finished ON job_stage (done_ms, id, job_id, kind, p50_min, p80_min) WHERE state = 'done';

CREATE INDEX job_state ON job (state);

CREATE INDEX job_vehicle ON job (vehicle_id);

CREATE INDEX journal_at ON journal (at_ms);

CREATE INDEX pad_batch_item ON pad_batch (item_id, came_ms);

CREATE INDEX pad_event_batch ON pad_event (batch_id);

CREATE INDEX pad_event_job ON pad_event (job_id) WHERE job_id IS NOT NULL;

CREATE INDEX pad_event_lost ON pad_event (batch_id, pieces) WHERE lost = 1;

CREATE INDEX paper_print_invoice ON paper_print (invoice_id);

CREATE INDEX partial_line_of ON partial_line (quote_id, letter, line);

CREATE INDEX partial_line_partial ON partial_line (partial_id);

CREATE INDEX payment_credit ON payment (customer_id) WHERE kind = 'credit';

CREATE INDEX payment_customer ON payment (customer_id);

CREATE INDEX payment_day ON payment (local_day);

CREATE INDEX payment_deposit ON payment (job_id) WHERE kind = 'deposit';

CREATE INDEX payment_job ON payment (job_id);

CREATE INDEX payment_of ON payment (of_payment_id);

CREATE INDEX payment_receipt ON payment (receipt);

CREATE INDEX picture_job ON picture (job_id);

CREATE INDEX placement_job ON placement (job_id);

CREATE INDEX placement_person ON placement (person_id, end_min);

CREATE INDEX placement_stage ON placement (stage_id);

CREATE INDEX purchase_order_line_item ON purchase_order_line (item_id);

CREATE INDEX purchase_order_line_order ON purchase_order_line (order_id);

CREATE INDEX purchase_order_supplier ON purchase_order (supplier_id);

CREATE UNIQUE INDEX quote_one_accepted ON quote (job_id) WHERE state = 'accepted';

CREATE INDEX quote_state ON quote (state, job_id);

CREATE UNIQUE INDEX sanding_consent_panel ON sanding_consent (inspection_id, panel) WHERE removed_ms IS NULL;

CREATE UNIQUE INDEX shop_logo_one ON shop_logo ((1)) WHERE removed_ms IS NULL;

CREATE INDEX stage_note_stage ON stage_note (stage_id, at_ms);

CREATE INDEX stage_work_ended ON stage_work (end_ms, start_ms, stage_id, person_id, bay_id);

CREATE INDEX stage_work_long ON stage_work (end_ms, start_ms) WHERE end_ms - start_ms > 86400000;

CREATE INDEX stage_work_person ON stage_work (person_id, end_ms);

CREATE INDEX stage_work_stage ON stage_work (stage_id, person_id, start_ms, end_ms);

CREATE INDEX stay_bay ON stay (bay_id, leave_min);

CREATE INDEX stay_job ON stay (job_id, arrive_min, leave_min, bay_id);

CREATE INDEX stay_leave ON stay (leave_min);

CREATE INDEX stock_container_open ON stock_container (item_id) WHERE closed_ms IS NULL;

CREATE UNIQUE INDEX stock_count_open ON stock_count (item_id) WHERE closed_ms IS NULL;

CREATE UNIQUE INDEX stock_item_barcode ON stock_item (barcode) WHERE barcode <> '';

CREATE INDEX stock_item_material ON stock_item (material, preference);

CREATE UNIQUE INDEX stock_item_name ON stock_item (name COLLATE NOCASE) WHERE ended_day IS NULL;

CREATE INDEX stock_movement_corrects ON stock_movement (corrects_id) WHERE corrects_id IS NOT NULL;

CREATE INDEX stock_movement_draw ON stock_movement (at_ms, item_id, qty) WHERE reason = 'draw';

CREATE INDEX stock_movement_item ON stock_movement (item_id, at_ms, qty, value_minor);

CREATE INDEX stock_movement_job ON stock_movement (job_id) WHERE job_id IS NOT NULL;

CREATE INDEX stock_movement_stage ON stock_movement (stage_id) WHERE stage_id IS NOT NULL;

CREATE INDEX supplier_item_item ON supplier_item (item_id);

CREATE INDEX test_spot_inspection ON test_spot (inspection_id);

CREATE INDEX vehicle_customer ON vehicle (customer_id);

CREATE INDEX vehicle_keeper_customer ON vehicle_keeper (customer_id);

CREATE INDEX vehicle_plate ON vehicle (plate_key);

CREATE INDEX vehicle_vin ON vehicle (vin) WHERE vin <> '';

CREATE INDEX voucher_customer ON voucher (customer_id);

CREATE INDEX voucher_entry_invoice ON voucher_entry (invoice_id);

CREATE UNIQUE INDEX voucher_entry_sold_once ON voucher_entry (voucher_id) WHERE kind = 'sold';

CREATE INDEX voucher_entry_voucher ON voucher_entry (voucher_id);

CREATE INDEX voucher_payment ON voucher (payment_id);
