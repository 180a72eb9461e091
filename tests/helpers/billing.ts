import { parse } from 'csv-parse/sync';
import { quoteEstimates } from '#core/billing/commands/quotes.ts';
import type { WriteCtx } from '#core/context.ts';
import type { CustomerId, InspectionId, InvoiceId, JobId, QuoteId, VehicleId } from '#core/shared/ids.ts';
import { ACCOUNTS, type Account } from '#core/shared/settings/accounts.ts';
import { defaultSettings } from '#core/shared/settings.ts';
import type { StagePlan } from '#core/shared/stagePlan.ts';
import type { EpochMs, FilmTenthUm, Minor } from '#core/shared/units.ts';
import type { EstimateView, LimitView, StageRates } from '#core/shared/views/estimate.ts';
import { type Skill, STAGE_KINDS, type StageKind } from '#core/shared/vocabulary.ts';
import { TEST_NOW, type TestShop } from './shop.ts';

let made = 0;
function freshId(): string {
  made += 1;
  return `t${String(made).padStart(19, '0')}`;
}

/** A write context over the test shop's own database, for commands that no entry reaches alone. */
export function ctxOf(shop: TestShop): WriteCtx {
  return {
    db: shop.db,
    now: shop.now(),
    actor: { personId: shop.people.owner, name: 'The owner', role: 'owner' },
    newId: <T extends string>() => freshId() as T,
    changed: () => {},
    onceKept: (work) => work(),
  };
}

export type TestJob = {
  readonly jobId: JobId;
  readonly customerId: CustomerId;
  readonly vehicleId: VehicleId;
};

/** A customer with a vehicle and an open enquiry. */
export function addTestJob(
  shop: TestShop,
  more: { readonly name?: string; readonly email?: string } = {},
): TestJob {
  const [customerId, vehicleId, jobId] = [freshId(), freshId(), freshId()];
  const { raw } = shop.db;
  raw
    .prepare(
      `INSERT INTO customer (id, kind, name, phone, phone_key, email, address, country, tax_number, locale, note, created_ms)
       VALUES (?, 'person', ?, '', '', ?, '11 Sluice Lane' || char(10) || 'Emberwick', '', '', '', '', 0)`,
    )
    .run(customerId, more.name ?? 'Marit Vane', more.email ?? 'marit.vane@example.org');
  raw
    .prepare(
      `INSERT INTO vehicle (id, customer_id, body, make_model, colour, year, plate, plate_key, vin, hardness, note, created_ms)
       VALUES (?, ?, 'saloon', 'Velloy Merrin', 'deep blue', 2019, 'EW 41 TRN', 'EW41TRN', '', 'medium', '', 0)`,
    )
    .run(vehicleId, customerId);
  const number = (raw.prepare('SELECT coalesce(max(number), 0) + 1 AS n FROM job').get() as { n: number }).n;
  raw
    .prepare(
      `INSERT INTO job (id, number, customer_id, vehicle_id, purpose, state, wish, created_ms)
       VALUES (?, ?, ?, ?, 'correction', 'enquiry', 'make it look good', 0)`,
    )
    .run(jobId, number, customerId, vehicleId);
  return { jobId: jobId as JobId, customerId: customerId as CustomerId, vehicleId: vehicleId as VehicleId };
}

function stage(kind: StageKind, minutes: number, skill: Skill): StagePlan {
  return {
    kind,
    panels: ['bo', 'ro'],
    estimatedMin: minutes,
    p20Min: minutes,
    p50Min: minutes,
    p80Min: minutes,
    p95Min: minutes,
    mu: Math.log(minutes),
    sigma: 0,
    dwellMin: 0,
    bayKinds: ['correction'],
    skill,
    crew: 1,
    splittable: true,
    materials: [],
    note: '',
  };
}

/** Six stages of 9.5 h in all, as a saloon with swirls on its bonnet and roof might take. */
export const STAGES: readonly StagePlan[] = [
  stage('wash', 60, 'wash'),
  stage('clay', 60, 'wash'),
  stage('mask', 30, 'correction'),
  stage('cut', 180, 'correction'),
  stage('refine', 150, 'correction'),
  stage('protect', 90, 'protection'),
];

const LIMITS: readonly LimitView[] = [
  { key: 'staysEtched', panel: 'lfd', defect: 'etching', data: {} },
  { key: 'refinished', panel: 'rrq', defect: null, data: {} },
];

/** One price of an hour for all stages but those named. */
export function testRates(rate: number, own: Readonly<Partial<Record<StageKind, number>>> = {}): StageRates {
  return Object.fromEntries(STAGE_KINDS.map((kind) => [kind, own[kind] ?? rate])) as StageRates;
}

/** An estimate of 9.5 h and some material. Amounts as the test states them. */
export function testEstimate(
  jobId: JobId,
  more: {
    readonly labour?: number;
    readonly materials?: number;
    readonly taxIncluded?: boolean;
    /** Of every stage that `rates` does not name. */
    readonly rate?: number;
    readonly rates?: Readonly<Partial<Record<StageKind, number>>>;
  } = {},
): EstimateView {
  const labourMinor = (more.labour ?? 80_750) as Minor;
  const materialsMinor = (more.materials ?? 9640) as Minor;
  return {
    id: freshId(),
    jobId,
    version: 1,
    basis: 'inspected',
    madeMs: TEST_NOW as EpochMs,
    madeBy: 'The owner',
    inspectionId: null as InspectionId | null,
    wish: 'twoStage',
    asked: { condition: null, interior: false, protection: 'sealant', two: [], ceiling: null },
    panels: [
      {
        panel: 'bo',
        level: 'twoStage',
        areaCm2: 15_000,
        workMin: 120,
        sanding: null,
        removalTenthUm: 20 as FilmTenthUm,
        gainPpm: 400_000,
      },
      {
        panel: 'ro',
        level: 'oneStage',
        areaCm2: 18_000,
        workMin: 90,
        sanding: null,
        removalTenthUm: 10 as FilmTenthUm,
        gainPpm: 200_000,
      },
    ],
    stages: STAGES,
    hours: {
      p20Min: 486,
      p50Min: 570,
      p80Min: 720,
      p95Min: 800,
      meanMin: 570,
      mu: 6.3,
      sigma: 0.2,
      jobSigma: 0.1,
    },
    price: {
      labourMinor,
      materialsMinor,
      totalMinor: (labourMinor + materialsMinor) as Minor,
      rateMinor: (more.rate ?? 8500) as Minor,
      rates: testRates(more.rate ?? 8500, more.rates),
      chargedMin: 570,
      rule: 'mean',
      basis: 'fixed',
      taxIncluded: more.taxIncluded ?? true,
    },
    gainPpm: 870_000,
    limits: LIMITS,
    factors: [],
  };
}

/** Quotes estimates as options A, B, C. */
export function quoteJob(
  shop: TestShop,
  jobId: JobId,
  estimates: readonly EstimateView[],
  reason = '',
  how: Partial<Parameters<typeof quoteEstimates>[1]> = {},
): QuoteId {
  const ctx = ctxOf(shop);
  return quoteEstimates(
    ctx,
    { jobId, titles: ['Best within €1,100', 'Two stages all over'], reason, ...how },
    estimates,
  ).quoteId;
}

/** A job whose first option the customer has agreed to. */
export function agreedJob(shop: TestShop, more: Parameters<typeof testEstimate>[1] = {}): TestJob {
  const job = addTestJob(shop);
  const quoteId = quoteJob(shop, job.jobId, [testEstimate(job.jobId, more)]);
  shop.write('billing.acceptQuote', { quoteId, revision: 1, letter: 'A', name: 'Marit Vane', way: 'spoken' });
  return job;
}

/** Issues a draft as it stands and gives its number. */
export async function issueDraft(shop: TestShop, invoiceId: InvoiceId): Promise<number> {
  const { revision } = await shop.read('billing.readInvoice', { invoiceId });
  return shop.write('billing.issueInvoice', { invoiceId, revision, aheadOfWork: true }).number;
}

/** Drafts and issues the invoice of a job's work. */
export async function billJob(shop: TestShop, jobId: JobId): Promise<InvoiceId> {
  const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
  await issueDraft(shop, invoiceId);
  return invoiceId;
}

/** The code an action is refused with, `accepted` when it is not. */
export async function refusalOf(shop: TestShop, name: string, input: unknown): Promise<string> {
  const reply = await shop.call(name, input);
  return reply.ok ? 'accepted' : reply.error.code;
}

/** From now on the shop asks for deposits by invoice. */
export function askPrepaymentInvoices(shop: TestShop): void {
  shop.db.raw.prepare(`UPDATE shop SET settings = '{"billing":{"depositForm":"prepaymentInvoice"}}'`).run();
}

/** A job's stages in order. */
export function stageIdsOf(shop: TestShop, jobId: JobId): readonly string[] {
  const sql = 'SELECT id FROM job_stage WHERE job_id = ? ORDER BY seq';
  return shop.db.raw.prepare(sql).pluck().all(jobId) as string[];
}

/** Stops a job half way: what is done of each stage, in their order; stages not named are not begun. */
export function stopWith(shop: TestShop, jobId: JobId, donePpm: readonly number[]): void {
  const share = shop.db.raw.prepare(
    `INSERT INTO stage_share (stage_id, share_ppm, basis) VALUES (?, ?, 'named')`,
  );
  stageIdsOf(shop, jobId).forEach((id, i) => {
    share.run(id, donePpm[i] ?? 0);
  });
}

/** Time worked on a stage by the technician, from minute to minute. */
export function workOn(shop: TestShop, stageId: string | undefined, fromMin: number, toMin: number): void {
  shop.db.raw
    .prepare('INSERT INTO stage_work (stage_id, person_id, start_ms, end_ms) VALUES (?, ?, ?, ?)')
    .run(stageId, shop.people.technician, fromMin * 60_000, toMin * 60_000);
}

export type Booking = {
  readonly account: Account;
  readonly debitMinor: number;
  readonly creditMinor: number;
};

/** The journal as the accountant gets it, read by a library of its own; accounts by their numbers in the example chart. */
export function bookingsOf(csv: Uint8Array): Booking[] {
  const chart = defaultSettings().accounts;
  const rows: string[][] = parse(new TextDecoder().decode(csv), { fromLine: 2 });
  const minor = (text: string | undefined): number => Math.round(Number(text) * 100);
  return rows.map((row) => {
    const account = ACCOUNTS.find((name) => chart[name] === row[3]);
    if (!account) throw new Error(`no account ${row[3]}`);
    return { account, debitMinor: minor(row[6]), creditMinor: minor(row[7]) };
  });
}
