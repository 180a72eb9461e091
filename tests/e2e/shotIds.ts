import type { Page } from 'playwright-core';
import { isMachineStage, type StageKind } from '#core/shared/vocabulary.ts';
import { callFrom } from './pageCalls.ts';

type Job = { readonly id: string; readonly state: string; readonly vehicleId?: string };

async function rows<T>(
  page: Page,
  name: string,
  input: unknown,
  pick: (value: never) => readonly T[] | undefined,
): Promise<readonly T[]> {
  return pick((await callFrom(page, name, input)) as never) ?? [];
}

type Stages = { readonly stages: readonly { readonly kind: StageKind; readonly state: string }[] };

/** Inspected, and with work on the paint still to come: a choice of levels is open, and its stair has more than one step. */
async function isInspected(page: Page, jobId: string): Promise<boolean> {
  if (!(await callFrom(page, 'paint.inspectionOf', { jobId }))) return false;
  const job = (await callFrom(page, 'bookings.job', { jobId })) as Stages | null;
  if (!job?.stages.some((s) => isMachineStage(s.kind) && s.state !== 'done')) return false;
  const ask = { jobId, measure: 'hours', ceiling: null, alike: false };
  const stair = (await callFrom(page, 'estimate.bestWithin', ask)) as { steps: readonly unknown[] } | null;
  return (stair?.steps.length ?? 0) > 1;
}

/** Ids that fill the routes: a car in work rather than one only booked, an inspected one rather than a wash. */
export async function idsFor(page: Page): Promise<Readonly<Record<string, string>>> {
  const jobs = await rows<Job>(
    page,
    'bookings.jobs',
    { list: 'open', limit: 100 },
    (v: { rows?: Job[] } | null) => v?.rows,
  );
  const inspected: Job[] = [];
  for (const job of jobs.filter((j) => j.state === 'inWork' || j.state === 'here')) {
    if (await isInspected(page, job.id)) inspected.push(job);
  }
  const job = inspected[0] ?? jobs[0];
  const view = job
    ? ((await callFrom(page, 'bookings.job', { jobId: job.id })) as {
        customer: { id: string };
        vehicle: { id: string };
      } | null)
    : null;
  const items = await rows<{ id: string }>(
    page,
    'stock.listItems',
    {},
    (v: { id: string }[] | null) => v ?? [],
  );
  const orders = await rows<{ id: string }>(
    page,
    'stock.listOrders',
    { open: false },
    (v: { id: string }[] | null) => v ?? [],
  );
  const invoices = await rows<{ id: string }>(
    page,
    'billing.listInvoices',
    { list: 'all' },
    (v: { rows?: { id: string }[] } | null) => v?.rows,
  );
  const found = {
    jobId: job?.id,
    bookedId: jobs.find((j) => j.state === 'booked')?.id,
    readyId: jobs.find((j) => j.state === 'ready')?.id,
    customerId: view?.customer.id,
    vehicleId: view?.vehicle.id,
    itemId: items[0]?.id,
    orderId: orders[0]?.id,
    invoiceId: invoices[0]?.id,
  };
  return Object.fromEntries(Object.entries(found).filter((entry): entry is [string, string] => !!entry[1]));
}
