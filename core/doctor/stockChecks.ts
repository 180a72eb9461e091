import { allRows } from '../db/prepared.ts';
import type { Check } from './check.ts';

/** The stock ledger and what is kept beside it. */
export const stockChecks: readonly Check[] = [
  {
    name: 'stock.level',
    about: 'what is on hand is the sum of the ledger, in amount and value',
    run: (db) =>
      allRows<{ name: string; qty: number; booked: number }>(
        db,
        `SELECT i.name, coalesce(l.qty, 0) AS qty, coalesce(m.qty, 0) AS booked
         FROM stock_item i LEFT JOIN stock_level l ON l.item_id = i.id
         LEFT JOIN (SELECT item_id, sum(qty) AS qty, sum(value_minor) AS value FROM stock_movement GROUP BY item_id) m ON m.item_id = i.id
         WHERE coalesce(l.qty, 0) <> coalesce(m.qty, 0) OR coalesce(l.value_minor, 0) <> coalesce(m.value, 0)`,
      ).map((row) => ({
        subject: row.name,
        problem: `on hand ${row.qty}, the ledger sums to ${row.booked}`,
      })),
  },
  {
    name: 'stock.nothingLeft',
    about: 'an item with nothing on hand has no value',
    run: (db) =>
      allRows<{ name: string; value_minor: number }>(
        db,
        `SELECT i.name, l.value_minor FROM stock_level l JOIN stock_item i ON i.id = l.item_id WHERE l.qty = 0 AND l.value_minor <> 0`,
      ).map((row) => ({ subject: row.name, problem: `nothing on hand, but a value of ${row.value_minor}` })),
  },
  {
    name: 'pads.pieces',
    about: 'no pad or towel batch has fewer than no pieces in a state',
    run: (db) =>
      allRows<{ batch_id: string; state: string; pieces: number }>(
        db,
        `SELECT batch_id, state, sum(pieces) AS pieces FROM (
           SELECT batch_id, to_state AS state, pieces FROM pad_event
           UNION ALL SELECT batch_id, from_state, -pieces FROM pad_event WHERE from_state IS NOT NULL)
         GROUP BY batch_id, state HAVING sum(pieces) < 0`,
      ).map((row) => ({
        subject: `batch ${row.batch_id}`,
        problem: `${row.pieces} pieces are ${row.state}`,
      })),
  },
];
