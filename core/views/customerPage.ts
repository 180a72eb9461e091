import type { ReadCtx } from '../context.ts';
import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import { refuse } from '../shared/errors.ts';
import type { CustomerId, VehicleId } from '../shared/ids.ts';
import type { Minor } from '../shared/units.ts';
import type {
  CustomerPage,
  CustomerView,
  JobLine,
  KeeperLine,
  OwedView,
  VehiclePage,
  VehicleView,
} from '../shared/views/people.ts';
import { checkVin } from '../vehicles/rules/vin.ts';
import { OWED } from './billingLists.ts';
import { vehiclesOf } from './findPeople.ts';
import { creditHeldOf, depositsHeldOf } from './heldMoney.ts';

type CustomerRow = Omit<CustomerView, 'erased'> & { readonly erasedMs: number | null };

const CUSTOMER = `SELECT id, kind, name, phone, email, address, country, tax_number AS taxNumber,
  terms_days AS termsDays, locale AS language, note, created_ms AS createdMs, erased_ms AS erasedMs, revision
  FROM customer WHERE id = :id`;

/** A customer as kept. @throws NOT_FOUND */
function customerView(db: ReadDb, id: CustomerId): CustomerView {
  const row = oneRow<CustomerRow>(db, CUSTOMER, { id }) ?? refuse('NOT_FOUND', { what: 'customer', id });
  const { erasedMs, ...kept } = row;
  return { ...kept, erased: erasedMs !== null };
}

/** A customer whose details are still there. @throws NOT_FOUND, CUSTOMER_ERASED */
export function customerKept(db: ReadDb, id: CustomerId): CustomerView {
  const view = customerView(db, id);
  if (view.erased) refuse('CUSTOMER_ERASED', {});
  return view;
}

const JOB = `SELECT j.id, j.number, j.state, j.purpose, j.wish, j.vehicle_id AS vehicleId,
  v.make_model AS makeModel, j.customer_id AS customerId, c.name AS customer,
  j.drop_off_min AS dropOffMin, j.pick_up_min AS pickUpMin, j.created_ms AS createdMs
  FROM job j JOIN vehicle v ON v.id = j.vehicle_id JOIN customer c ON c.id = j.customer_id`;
const JOBS_OF_CUSTOMER = `${JOB} WHERE j.customer_id = :id OR j.payer_id = :id ORDER BY j.created_ms DESC, j.id DESC`;
const JOBS_OF_VEHICLE = `${JOB} WHERE j.vehicle_id = :id ORDER BY j.created_ms DESC, j.id DESC`;

const MONEY = `SELECT coalesce(sum(owed), 0) AS owedMinor, count(*) AS openInvoices, min(dueDay) AS oldestDueDay
  FROM (SELECT ${OWED} AS owed, i.due_day AS dueDay FROM invoice i
    WHERE i.customer_id = :id AND i.number IS NOT NULL AND i.kind <> 'credit') WHERE owed <> 0`;

function owedBy(db: ReadDb, id: CustomerId): OwedView {
  const owed = oneRow<Omit<OwedView, 'heldMinor'>>(db, MONEY, { id });
  const none = { owedMinor: 0 as Minor, openInvoices: 0, oldestDueDay: null };
  return { ...(owed ?? none), heldMinor: heldFor(db, id) };
}

function heldFor(db: ReadDb, id: CustomerId): Minor {
  return (depositsHeldOf(db, id) + creditHeldOf(db, id)) as Minor;
}

/** A customer with vehicles, jobs (also those paid for somebody else) and what is owed. @throws NOT_FOUND */
export function customerPage(ctx: ReadCtx, input: { readonly customerId: CustomerId }): CustomerPage {
  const id = input.customerId;
  return {
    customer: customerView(ctx.db, id),
    vehicles: vehiclesOf(ctx.db, id),
    jobs: allRows<JobLine>(ctx.db, JOBS_OF_CUSTOMER, { id }),
    money: owedBy(ctx.db, id),
  };
}

const OPEN_JOBS = `SELECT count(*) AS n FROM job WHERE (customer_id = :id OR payer_id = :id)
  AND state NOT IN ('collected', 'cancelled', 'noShow')`;
const OPEN_DOCUMENTS = `SELECT count(*) FILTER (WHERE i.number IS NULL) AS drafts, count(*) FILTER (WHERE ${OWED} <> 0) AS unpaid
  FROM invoice i WHERE i.customer_id = :id`;

/** What stands against removing a customer's details. */
export type OpenBusiness = {
  readonly jobs: number;
  readonly drafts: number;
  /** Documents on which either side owes. */
  readonly unpaid: number;
  /** Deposits and credits on account. */
  readonly heldMinor: Minor;
};

export function openBusiness(db: ReadDb, id: CustomerId): OpenBusiness {
  const jobs = oneRow<{ readonly n: number }>(db, OPEN_JOBS, { id })?.n ?? 0;
  const { drafts, unpaid } = oneRow<Pick<OpenBusiness, 'drafts' | 'unpaid'>>(db, OPEN_DOCUMENTS, { id }) ?? {
    drafts: 0,
    unpaid: 0,
  };
  return { jobs, drafts, unpaid, heldMinor: heldFor(db, id) };
}

const VEHICLE = `SELECT v.id, v.body, v.make_model AS makeModel, v.colour, v.year, v.plate, v.vin,
  v.length_mm AS lengthMm, v.width_mm AS widthMm, v.height_mm AS heightMm, v.hardness, v.note,
  v.created_ms AS createdMs, v.revision, v.customer_id AS customerId, c.name AS customer
  FROM vehicle v JOIN customer c ON c.id = v.customer_id WHERE v.id = :id`;
const KEEPERS = `SELECT k.customer_id AS customerId, c.name, k.from_ms AS fromMs FROM vehicle_keeper k
  JOIN customer c ON c.id = k.customer_id WHERE k.vehicle_id = :id ORDER BY k.from_ms DESC`;

/** A vehicle with its keepers and visits, latest first. @throws NOT_FOUND */
export function vehiclePage(ctx: ReadCtx, input: { readonly vehicleId: VehicleId }): VehiclePage {
  const id = input.vehicleId;
  const row =
    oneRow<Omit<VehicleView, 'vinCheck'>>(ctx.db, VEHICLE, { id }) ??
    refuse('NOT_FOUND', { what: 'vehicle', id });
  return {
    vehicle: { ...row, vinCheck: checkVin(row.vin) },
    keepers: allRows<KeeperLine>(ctx.db, KEEPERS, { id }),
    jobs: allRows<JobLine>(ctx.db, JOBS_OF_VEHICLE, { id }),
  };
}
