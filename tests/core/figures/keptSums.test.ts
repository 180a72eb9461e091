import fc from 'fast-check';
import { expect, it } from 'vitest';
import { netOfJob } from '#core/billing/rules/collective.ts';
import { openChecks } from '#core/doctor/openChecks.ts';
import { sumChecks } from '#core/doctor/sumChecks.ts';
import type { CustomerId, InvoiceId, JobId, StageId } from '#core/shared/ids.ts';
import { marginRows } from '#core/views/margin.ts';
import { agreedJob, issueDraft, stageIdsOf } from '../../helpers/billing.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';
import { fillShelf, type Shelf } from '../stock/shelf.ts';

type World = {
  readonly shop: TestShop;
  readonly shelf: Shelf;
  readonly fleet: CustomerId;
  readonly jobs: readonly JobId[];
  readonly pick: (n: number) => number;
};
const BY = ['technician', 'owner'] as const;

const jobOf = ({ jobs, pick }: World): JobId => jobs[pick(jobs.length)] as JobId;
const stageOf = (world: World): StageId => stageIdsOf(world.shop, jobOf(world))[world.pick(6)] as StageId;
const one = <T>({ shop, pick }: World, sql: string): T | undefined => {
  const rows = shop.db.raw.prepare(sql).pluck().all() as T[];
  return rows[pick(Math.max(1, rows.length))];
};
const draftOf = (world: World): InvoiceId =>
  one<InvoiceId>(world, 'SELECT id FROM invoice WHERE number IS NULL ORDER BY id') ?? ('-' as InvoiceId);
const issuedOf = (world: World): InvoiceId =>
  one<InvoiceId>(
    world,
    "SELECT id FROM invoice WHERE number IS NOT NULL AND kind <> 'credit' ORDER BY number",
  ) ?? ('-' as InvoiceId);
const revisionOf = ({ shop }: World, id: InvoiceId): number =>
  (shop.db.raw.prepare('SELECT revision FROM invoice WHERE id = ?').pluck().get(id) as number) ?? 1;
/** Half an hour that nobody else has: the n-th of the test. */
let hour = 0;
const stretch = (): { readonly startMs: number; readonly endMs: number } => {
  hour += 1;
  return { startMs: hour * 3_600_000, endMs: hour * 3_600_000 + 1_800_000 };
};

const sold = ({ fleet }: World) => ({ customerId: fleet, amountMinor: 5000, way: 'cash' }) as never;
/** On the first of the jobs, so that sums come together. */
const draw = (w: World): unknown => {
  const stageId = stageIdsOf(w.shop, w.jobs[0] as JobId)[w.pick(6)] as StageId;
  const drawn = w.pick(2) ? [w.shelf.pads, 1] : [w.shelf.compound, 10_000 * (1 + w.pick(5))];
  return w.shop.write('stock.drawForStage', {
    stageId,
    draws: [{ itemId: drawn[0], amount: drawn[1] }],
  } as never);
};
const credit = (w: World): unknown =>
  w.shop.write('billing.creditInvoice', {
    invoiceId: issuedOf(w),
    lines: w.pick(2) ? null : [{ line: w.pick(2), amountMinor: 1 + w.pick(90_000) }],
    reason: 'test',
  } as never);

/** What a desk, a bay and a shelf do that moves a sum; many are refused, and leave no trace then. */
const DOES: readonly ((world: World) => unknown)[] = [
  (w) => w.shop.write('billing.draftInvoice', { jobId: jobOf(w) }),
  (w) => issueDraft(w.shop, draftOf(w)),
  (w) => issueDraft(w.shop, w.shop.write('billing.draftInvoice', { jobId: jobOf(w) }).invoiceId),
  (w) => {
    const { number } = w.shop.write('billing.sellVoucher', sold(w));
    const { invoiceId } = w.shop.write('billing.draftInvoice', { jobId: jobOf(w) });
    w.shop.write('billing.useVoucher', { number, invoiceId, amountMinor: 1 + w.pick(5000) } as never);
    return issueDraft(w.shop, invoiceId);
  },
  ...Array.from({ length: 3 }, () => credit),
  (w) => {
    const id = draftOf(w);
    return w.shop.write('billing.dropDraft', { invoiceId: id, revision: revisionOf(w, id) });
  },
  (w) =>
    w.shop.write('billing.draftCollective', {
      customerId: w.fleet,
      jobs: w.jobs.slice(w.pick(2), 2 + w.pick(2)).map((jobId) => ({ jobId, orderNumber: '' })),
    }),
  (w) => {
    const id = draftOf(w);
    const part = { by: 'share' as const, sharePpm: 250_000 };
    return w.shop.write('billing.splitDraft', { invoiceId: id, revision: revisionOf(w, id), part });
  },
  (w) =>
    w.shop.write('billing.takePayment', {
      invoiceIds: [issuedOf(w)],
      amountMinor: 1 + w.pick(90_000),
      way: 'cash',
      surplus: 'credit',
    } as never),
  (w) =>
    w.shop.write('billing.sellVoucher', { customerId: w.fleet, amountMinor: 5000, way: 'cash' } as never),
  (w) => w.shop.write('billing.useVoucher', { number: 1, invoiceId: draftOf(w), amountMinor: 1000 } as never),
  ...Array.from({ length: 4 }, () => draw),
  (w) => {
    const movementId = one<number>(
      w,
      'SELECT id FROM stock_movement WHERE job_id IS NOT NULL AND corrects_id IS NULL',
    );
    return movementId && w.shop.write('stock.correctDraw', { movementId, amount: w.pick(90) });
  },
  (w) =>
    w.shop.write('stock.receive', {
      supplierId: w.shelf.kestle,
      lines: [{ itemId: w.shelf.pads, packs: 1, packSize: 2, priceMinor: 2000 + w.pick(900) }],
    }),
  (w) => {
    const { startMs, endMs } = stretch();
    return w.shop.db.raw
      .prepare('INSERT INTO stage_work (stage_id, person_id, start_ms, end_ms) VALUES (?, ?, ?, ?)')
      .run(stageOf(w), w.shop.people[BY[w.pick(2)] ?? 'owner'], startMs, w.pick(3) ? endMs : null);
  },
  (w) => w.shop.db.raw.exec('UPDATE stage_work SET end_ms = start_ms + 60000 WHERE end_ms IS NULL'),
  (w) => {
    const workId = one<number>(w, 'SELECT id FROM stage_work WHERE end_ms IS NOT NULL ORDER BY id') ?? 1;
    const personId = w.shop.people[BY[w.pick(2)] ?? 'owner'];
    const change = w.pick(3) ? { to: 'times', personId, ...stretch() } : { to: 'removed' };
    return w.shop.write('bookings.correctTime', { workId, change } as never);
  },
  (w) =>
    w.shop.db.raw
      .prepare('UPDATE job SET state = ?, arrived_ms = 1, ready_ms = 1, collected_ms = ? WHERE id = ?')
      .run(...(w.pick(2) ? ['collected', TEST_NOW] : ['ready', null]), jobOf(w)),
  (w) =>
    w.shop.write('access.setHourCost', {
      personId: w.shop.people[BY[w.pick(2)] ?? 'owner'],
      // Days on which the stretches of the test begin, from the day of the epoch on.
      ...{ fromDay: `1970-01-${String(1 + w.pick(6)).padStart(2, '0')}`, wasMinor: null },
      hourCostMinor: 1 + w.pick(5000),
      farMeant: true,
    } as never),
  (w) =>
    w.shop.db.raw
      .prepare('UPDATE job SET redo_of_job_id = ? WHERE id = ?')
      .run(w.jobs[0], w.jobs[3 + w.pick(2)]),
];

/** Net, material and minutes of each job gone with what was redone of it, straight from the records. */
function plainly({ shop: { db } }: World): readonly unknown[] {
  const all = <T>(sql: string): T[] => db.raw.prepare(sql).all() as T[];
  const jobs = all<{ id: string; of: string | null; gone: number | null }>(
    'SELECT id, redo_of_job_id AS of, collected_ms AS gone FROM job ORDER BY collected_ms, number',
  );
  const rootOf = (id: string): string => {
    const of = jobs.find((j) => j.id === id)?.of ?? null;
    return of === null ? id : rootOf(of);
  };
  const sum = (sql: string, id: string): number =>
    (db.raw.prepare(sql).pluck().get(id) as number | null) ?? 0;
  // The shop's day of a stretch is read off the calendar of its zone, not off a midnight's instant.
  const dayOf = new Intl.DateTimeFormat('sv-SE', { timeZone: 'Europe/Berlin' });
  const handsOf = (id: string): { labourMinor: number; unknownMs: number }[] => {
    const stretches = all<{ jobId: string; personId: string; startMs: number; ms: number }>(
      `SELECT s.job_id AS jobId, w.person_id AS personId, w.start_ms AS startMs, w.end_ms - w.start_ms AS ms
       FROM stage_work w JOIN job_stage s ON s.id = w.stage_id WHERE w.end_ms > 0`,
    ).filter((w) => w.jobId === id);
    return [...Map.groupBy(stretches, (w) => w.personId).values()].map((of) => {
      const costs = of.map(({ personId, startMs, ms }) => {
        const cost = db.raw
          .prepare(
            'SELECT hour_minor FROM hour_cost WHERE person_id = ? AND from_day <= ? ORDER BY from_day DESC',
          )
          .pluck()
          .get(personId, dayOf.format(startMs)) as number | undefined;
        return { minorMs: (cost ?? 0) * ms, unknownMs: cost === undefined ? ms : 0 };
      });
      return {
        labourMinor: Math.round(costs.reduce((total, c) => total + c.minorMs, 0) / 3_600_000),
        unknownMs: costs.reduce((total, c) => total + c.unknownMs, 0),
      };
    });
  };
  const parts = all<{ jobId: string; bill: string; totals: string }>(
    `SELECT b.job_id AS jobId, i.bill, i.totals FROM billed_job b JOIN invoice i ON i.id = b.invoice_id WHERE i.number > 0`,
  );
  return jobs
    .filter((j) => j.of === null && j.gone !== null)
    .map(({ id }) => {
      const family = jobs.map((j) => j.id).filter((one) => rootOf(one) === id);
      const over = (of: (id: string) => number): number => family.reduce((total, one) => total + of(one), 0);
      const netMinor = over(
        (j) =>
          sum(
            'SELECT sum(t.net_minor) FROM invoice_tax t JOIN invoice i ON i.id = t.invoice_id WHERE i.job_id = ?',
            j,
          ) -
          sum(
            'SELECT sum(e.net_minor) FROM voucher_entry e JOIN invoice i ON i.id = e.invoice_id WHERE i.job_id = ?',
            j,
          ) +
          parts
            .filter((p) => p.jobId === j)
            .reduce((net, p) => net + netOfJob(JSON.parse(p.bill), JSON.parse(p.totals), j), 0),
      );
      const materialMinor = over(
        (j) =>
          sum('SELECT -sum(value_minor) FROM stock_movement WHERE job_id = ?', j) +
          sum(
            `SELECT sum(round(l.last_cost_minor * 1.0 / l.last_cost_qty * u.uses / coalesce(i.uses_per_life, 20)))
             FROM (SELECT b.item_id, sum(e.pieces) AS uses FROM pad_event e JOIN pad_batch b ON b.id = e.batch_id
               WHERE e.used = 1 AND e.job_id = ? GROUP BY b.item_id) u
             JOIN stock_item i ON i.id = u.item_id JOIN stock_level l ON l.item_id = u.item_id`,
            j,
          ),
      );
      const hands = family.flatMap((j) => handsOf(j));
      const ms = over((j) =>
        sum(
          `SELECT sum(w.end_ms - w.start_ms) FROM stage_work w JOIN job_stage s ON s.id = w.stage_id WHERE s.job_id = ? AND w.end_ms > 0`,
          j,
        ),
      );
      const labourMinor = hands.reduce((total, h) => total + h.labourMinor, 0);
      const unknownMs = hands.reduce((total, h) => total + h.unknownMs, 0);
      return {
        jobId: id,
        netMinor,
        materialMinor,
        workedMin: Math.floor(ms / 60_000),
        labourMinor,
        unknownMs,
      };
    });
}

it('a job is to bill from being ready until an invoice bills all of it', async () => {
  const shop = openTestShop();
  try {
    const { jobId } = agreedJob(shop);
    const toBill = () => shop.db.raw.prepare('SELECT job_id FROM job_unbilled').pluck().all();
    expect(toBill()).toEqual([]);
    shop.db.raw
      .prepare("UPDATE job SET state = 'ready', arrived_ms = 1, ready_ms = ? WHERE id = ?")
      .run(TEST_NOW, jobId);
    expect(toBill()).toEqual([jobId]);
    await issueDraft(shop, shop.write('billing.draftInvoice', { jobId }).invoiceId);
    expect(toBill()).toEqual([]);
  } finally {
    shop.close();
  }
});

it('after whatever commands the kept sums and lists are what the records say', async () => {
  const command = fc.tuple(fc.nat(DOES.length - 1), fc.nat(999_999));
  await fc.assert(
    fc.asyncProperty(fc.array(command, { minLength: 90, maxLength: 90 }), async (commands) => {
      const shop = openTestShop();
      try {
        const shelf = fillShelf(shop);
        const made = Array.from({ length: 5 }, () => agreedJob(shop));
        const fleet = made[0]?.customerId as CustomerId;
        const jobs = made.map((j) => j.jobId);
        shop.db.raw.prepare('UPDATE job SET payer_id = ?').run(fleet);
        shop.db.raw.exec(`UPDATE shop SET settings = '{"billing":{"voucherPurpose":"single"}}';
          UPDATE person SET started_day = '1970-01-01'`);
        let done = 0;
        for (const [which, number] of commands) {
          let rest = number;
          const pick = (n: number): number => {
            rest = (rest * 48_271 + 11) % 2_147_483_647;
            return rest % n;
          };
          const world = { shop, shelf, fleet, jobs, pick };
          try {
            await DOES[which]?.(world);
            done += 1;
          } catch (error) {
            expect((error as { code?: string }).code, String(error)).toMatch(/^(?!SQLITE|INTERNAL)[A-Z_]+$/);
          }
        }
        expect(done).toBeGreaterThan(15);
        expect([...openChecks, ...sumChecks].flatMap((check) => check.run(shop.db))).toEqual([]);
        const told = marginRows(shop.db, 0, TEST_NOW + 1).map(
          ({ jobNumber: _, customer: __, ...row }) => row,
        );
        expect(told).toEqual(plainly({ shop } as World));
      } finally {
        shop.close();
      }
    }),
    { numRuns: 5, endOnFailure: true },
  );
});
