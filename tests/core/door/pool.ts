import fc from 'fast-check';
import type { BusyShop } from './busyShop.ts';

/** Which table an id belongs to, by the last word of the field that carries it. */
const TABLE_OF: Readonly<Record<string, string>> = {
  jobId: 'job',
  jobIds: 'job',
  consent: 'job',
  toJobId: 'job',
  depositJobId: 'job',
  customerId: 'customer',
  payerId: 'customer',
  vehicleId: 'vehicle',
  personId: 'person',
  personIds: 'person',
  technicianId: 'person',
  tipPersonId: 'person',
  stageId: 'job_stage',
  stageIds: 'job_stage',
  bayId: 'bay',
  itemId: 'stock_item',
  itemIds: 'stock_item',
  supplierId: 'supplier',
  orderId: 'purchase_order',
  lineId: 'purchase_order_line',
  quoteId: 'quote',
  invoiceId: 'invoice',
  invoiceIds: 'invoice',
  estimateIds: 'estimate',
  findingId: 'finding',
  pictureId: 'picture',
};

/** What the shop really holds, so that made-up input gets past the first look. */
export type Pool = {
  idFor(field: string): fc.Arbitrary<string>;
  numberFor(field: string, least: number, most: number): fc.Arbitrary<number> | null;
  readonly day: fc.Arbitrary<string>;
  readonly texts: readonly string[];
};

export function poolOf(shop: BusyShop): Pool {
  const ids = (table: string): string[] =>
    shop.db.raw.prepare(`SELECT id FROM "${table}" ORDER BY id DESC LIMIT 60`).pluck().all() as string[];
  const known = new Map<string, fc.Arbitrary<string>>();
  const nowMin = Math.floor(shop.nowMs / 60_000);
  return {
    idFor: (field) => {
      const table = TABLE_OF[field] ?? 'job';
      let found = known.get(table);
      if (!found) {
        const there = ids(table);
        const none = fc.constantFrom('0'.repeat(20), 'z'.repeat(20));
        found =
          there.length === 0 ? none : fc.oneof({ weight: 9, arbitrary: fc.constantFrom(...there) }, none);
        known.set(table, found);
      }
      return found;
    },
    numberFor: (field, least, most) => {
      const clip = (n: number): number => Math.min(most, Math.max(least, n));
      if (field === 'iterations' || field === 'runs') return fc.integer({ min: clip(20), max: clip(60) });
      if (/revision$/i.test(field)) return fc.integer({ min: 1, max: 4 });
      if (/Min$/.test(field) && most > 10_000_000)
        return fc.integer({ min: clip(nowMin - 20_000), max: clip(nowMin + 40_000) });
      if (/Ms$/.test(field))
        return fc.integer({ min: clip(shop.nowMs - 864e5), max: clip(shop.nowMs + 864e5) });
      if (/^(movementId|workId|readingId|receipt|asOfMovementId)$/.test(field))
        return fc.integer({ min: clip(0), max: clip(60) });
      return null;
    },
    day: fc.oneof(
      fc.integer({ min: -900, max: 900 }).map((n) => dayAt(shop.nowMs + n * 864e5)),
      fc.constantFrom('2026-10-25', '2026-03-29', '2024-02-29', '1970-01-01', '9999-12-31', '0001-01-01'),
    ),
    texts: TEXTS,
  };
}

function dayAt(ms: number): string {
  return new Date(ms).toISOString().slice(0, 10);
}

/** Texts that have upset programs before: nothing, blanks, quotes, other scripts, names of JavaScript's own. */
const TEXTS = [
  'Marit Vane',
  '',
  ' ',
  'Jörg Ößterling-Łukasiewicz',
  "x'; DROP TABLE job; --",
  '{name} # <b>',
  '%_\\',
  '__proto__',
  'constructor',
  'toString',
  '0',
  '-1',
  '1e9',
  'null',
  '12:30',
  'EUR',
  'AT',
  'en',
  'Europe/Vienna',
  'paint.thinTenthUm',
  'bays.horizonDays',
  '1M8GDM9AXKP042788',
  '你好',
  'مرحبا',
  '🚗'.repeat(20),
  'ﷺ'.repeat(30),
  'a\nb\tc',
  'name;material;unit\nWax;sealant;ml\n',
  'panel,point,reading,unit\nbo,1,105.2,um\n',
  '=HYPERLINK("x")',
] as const;
