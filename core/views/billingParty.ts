import { oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { refuse } from '../shared/errors.ts';
import type { CustomerId, JobId, VehicleId } from '../shared/ids.ts';
import { type PaperLanguage, paperTag } from '../shared/languages.ts';
import type { EpochMin, Minor, Ppm } from '../shared/units.ts';
import type { BilledVehicle, PartyView, SellerView } from '../shared/views/billing.ts';
import type { JobState } from '../shared/vocabulary.ts';
import { logoOf } from './logo.ts';
import { shopOf } from './shop.ts';

/** What a document needs to know of a job. */
export type BilledJob = {
  readonly id: JobId;
  readonly number: number;
  readonly state: JobState;
  readonly customerId: CustomerId;
  readonly payerId: CustomerId | null;
  readonly vehicleId: VehicleId;
  readonly ceilingMinor: Minor | null;
  readonly dropOffMin: EpochMin | null;
  readonly pickUpMin: EpochMin | null;
  readonly promisePpm: Ppm | null;
  readonly readyMs: number | null;
  readonly collectedMs: number | null;
  readonly redo: number;
};

const JOB = `SELECT id, number, state, customer_id AS customerId, payer_id AS payerId, vehicle_id AS vehicleId,
  ceiling_minor AS ceilingMinor, drop_off_min AS dropOffMin, pick_up_min AS pickUpMin, promise_ppm AS promisePpm,
  ready_ms AS readyMs, collected_ms AS collectedMs, redo_of_job_id IS NOT NULL AS redo FROM job WHERE id = :id`;

/** @throws NOT_FOUND when there is no such job */
export function billedJob(db: ReadDb, id: JobId): BilledJob {
  return oneRow<BilledJob>(db, JOB, { id }) ?? refuse('NOT_FOUND', { what: 'job', id });
}

const WORK_PLACED = `SELECT 1 FROM placement p JOIN job_stage s ON s.id = p.stage_id
  WHERE s.job_id = :id AND s.kind <> 'inspection' AND s.state <> 'dropped' LIMIT 1`;

/** True when a job's dates are those of its work: an inspection visit has dates of its own, which promise nothing more. */
export function datesOfWork(db: ReadDb, id: JobId): boolean {
  return oneRow(db, WORK_PLACED, { id }) !== undefined;
}

const PARTY = `SELECT id, name, address, email, phone, country, tax_number AS taxNumber, terms_days AS termsDays
  FROM customer WHERE id = :id`;

/** A customer as a document names them; their country is the shop's unless another is set. */
export function partyOf(db: ReadDb, id: CustomerId): PartyView & { readonly termsDays: number } {
  const row = oneRow<PartyView & { readonly termsDays: number }>(db, PARTY, { id });
  if (!row) return refuse('NOT_FOUND', { what: 'customer', id });
  return row.country === '' ? { ...row, country: shopOf(db).country } : row;
}

export function billedVehicle(db: ReadDb, id: VehicleId): BilledVehicle {
  const row = oneRow<BilledVehicle>(
    db,
    'SELECT body, make_model AS makeModel, colour, year, plate FROM vehicle WHERE id = :id',
    { id },
  );
  return row ?? refuse('NOT_FOUND', { what: 'vehicle', id });
}

/**
 * The BCP 47 tag of a customer's papers: in their language, else in the shop's for papers; null = nobody is named.
 * @throws NOT_FOUND when there is no such customer
 */
export function paperTagOf(db: ReadDb, id: CustomerId | null): string {
  if (id === null) return paperTag(shopOf(db), shopOf(db).settings.billing.paperLanguage);
  const row = oneRow<{ locale: PaperLanguage | '' }>(db, 'SELECT locale FROM customer WHERE id = :id', {
    id,
  });
  if (!row) return refuse('NOT_FOUND', { what: 'customer', id });
  const shop = shopOf(db);
  return paperTag(shop, row.locale || shop.settings.billing.paperLanguage);
}

/** The tag of whoever pays for a job: quotes and invoices go to them. */
export function payerTagOf(db: ReadDb, job: Pick<BilledJob, 'customerId' | 'payerId'>): string {
  return paperTagOf(db, job.payerId ?? job.customerId);
}

/** The shop as a paper names it that is written in `locale`, a BCP 47 tag; '' = as the shop itself writes. */
export function sellerOf(db: ReadDb, locale = ''): SellerView {
  const { name, address, phone, email, country, taxNumber, currency, zone, paper, ...rest } = shopOf(db);
  const { filmUnit, volumeUnit, lengthUnit, settings } = rest;
  const { iban, bic, accountHolder } = settings.billing;
  const bank = iban === '' ? {} : { bank: { holder: accountHolder || name.slice(0, 70), iban, bic } };
  const logo = logoOf(db);
  const units = { filmUnit, volumeUnit, lengthUnit };
  return {
    name,
    address,
    phone,
    email,
    country,
    taxNumber,
    currency,
    zone,
    locale: locale || rest.locale,
    paper,
    ...units,
    ...bank,
    ...(logo ? { logo } : {}),
  };
}
