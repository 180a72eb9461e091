import type { Brand } from './brand.ts';

/** Ids of the records that travel between areas. Time-ordered text made by `ctx.newId()`; never shown to people. */
export type PersonId = Brand<string, 'PersonId'>;
export type CustomerId = Brand<string, 'CustomerId'>;
export type VehicleId = Brand<string, 'VehicleId'>;
export type JobId = Brand<string, 'JobId'>;
export type StageId = Brand<string, 'StageId'>;
export type BayId = Brand<string, 'BayId'>;
export type InspectionId = Brand<string, 'InspectionId'>;
export type QuoteId = Brand<string, 'QuoteId'>;
export type ItemId = Brand<string, 'ItemId'>;
export type InvoiceId = Brand<string, 'InvoiceId'>;
export type VoucherId = Brand<string, 'VoucherId'>;
export type SupplierId = Brand<string, 'SupplierId'>;
export type PurchaseOrderId = Brand<string, 'PurchaseOrderId'>;

const ALPHABET = '0123456789abcdefghjkmnpqrstvwxyz';

/**
 * A 20-character time-ordered id: 10 characters of milliseconds, 10 of randomness.
 * `random` yields integers 0..31; the host passes a cryptographic source, seed and tests a seeded one.
 * @source Crockford's base 32 alphabet (public domain description)
 */
export function makeId(nowMs: number, random: () => number): string {
  let head = '';
  for (let rest = nowMs, i = 0; i < 10; i += 1, rest = Math.floor(rest / 32))
    head = ALPHABET.charAt(rest % 32) + head;
  let tail = '';
  for (let i = 0; i < 10; i += 1) tail += ALPHABET.charAt(random() % 32);
  return head + tail;
}

/** What is chance in an id: ten integers 0..31. */
export function idChance(id: string): readonly number[] {
  return [...id.slice(10)].map((sign) => ALPHABET.indexOf(sign));
}
