import { allRows } from '../db/prepared.ts';
import type { Check } from './check.ts';

/** The stock ledger and what is kept beside it. */
export const stockChecks: readonly Check[] = [
  {
    name: 'stock.level',
    run: (db) =>
      allRows<{ name: string; qty: number; worth: number; booked: number; booked_worth: number }>(
        db,
        `SELECT i.name, coalesce(l.qty, 0) AS qty, coalesce(l.value_minor, 0) AS worth, coalesce(m.qty, 0) AS booked,
           coalesce(m.value, 0) AS booked_worth
         FROM stock_item i LEFT JOIN stock_level l ON l.item_id = i.id
         LEFT JOIN (SELECT item_id, sum(qty) AS qty, sum(value_minor) AS value FROM stock_movement GROUP BY item_id) m ON m.item_id = i.id
         WHERE coalesce(l.qty, 0) <> coalesce(m.qty, 0) OR coalesce(l.value_minor, 0) <> coalesce(m.value, 0)`,
      ).map((row) => ({
        item: row.name,
        onHand: row.qty,
        worthMinor: row.worth,
        booked: row.booked,
        bookedMinor: row.booked_worth,
      })),
  },
  {
    name: 'stock.nothingLeft',
    run: (db) =>
      allRows<{ name: string; value_minor: number }>(
        db,
        `SELECT i.name, l.value_minor FROM stock_level l JOIN stock_item i ON i.id = l.item_id WHERE l.qty = 0 AND l.value_minor <> 0`,
      ).map((row) => ({ item: row.name, worthMinor: row.value_minor })),
  },
  {
    name: 'stock.containers',
    run: (db) =>
      allRows<{ name: string; opened_day: string }>(
        db,
        `SELECT i.name, c.opened_day FROM stock_container c JOIN stock_item i ON i.id = c.item_id
         WHERE NOT EXISTS (SELECT 1 FROM container_reading r WHERE r.container_id = c.id)
           OR EXISTS (SELECT 1 FROM container_reading r WHERE r.container_id = c.id AND r.as_of_id <> 0
             AND r.as_of_id NOT IN (SELECT m.id FROM stock_movement m WHERE m.item_id = c.item_id))`,
      ).map((row) => ({ item: row.name, openedDay: row.opened_day })),
  },
  {
    name: 'pads.pieces',
    run: (db) =>
      allRows<{ name: string; state: string; pieces: number }>(
        db,
        `SELECT i.name, e.state, sum(e.pieces) AS pieces FROM (
           SELECT batch_id, to_state AS state, pieces FROM pad_event
           UNION ALL SELECT batch_id, from_state, -pieces FROM pad_event WHERE from_state IS NOT NULL) e
         JOIN pad_batch b ON b.id = e.batch_id JOIN stock_item i ON i.id = b.item_id
         GROUP BY e.batch_id, e.state HAVING sum(e.pieces) < 0`,
      ).map((row) => ({ item: row.name, pieces: row.pieces, state: row.state })),
  },
];
