import {
  type Bill,
  type BillLine,
  isQuotedThing,
  isWorkLine,
  type LineKind,
  type LineTax,
} from '#core/shared/bill.ts';
import { timesPpm } from '#core/shared/money.ts';
import type { QuoteBasis } from '#core/shared/settings/billing.ts';
import type { Minor, Ppm } from '#core/shared/units.ts';
import type { StageRates } from '#core/shared/views/estimate.ts';
import type { JobState, StageKind } from '#core/shared/vocabulary.ts';
import { agreedLine, labourLines, lineKindOf, type StageLabour } from './quoteLines.ts';
import { sum } from './totals.ts';

/**
 * Goods sold or a fee charged beside the work are documents of their own: the work is still to be billed. What was
 * agreed beside it is billed with it, also where somebody took the work itself off the draft.
 */
export function billsWork(bill: Bill): boolean {
  return bill.lines.some((line) => isWorkLine(line) || isQuotedThing(line));
}

/** Up to here a job's work is not all done. */
const AHEAD: readonly JobState[] = ['enquiry', 'quoted', 'booked', 'here', 'inWork'];

/**
 * True for the bill of a job's work, or of a payer's share of it, while some of that is still to be done. A job stopped
 * half way has none left.
 */
export function isAheadOfWork(bill: Bill, state: JobState, stopped: boolean): boolean {
  const forWork = billsWork(bill) || bill.lines.some((line) => line.what === 'share');
  return forWork && !stopped && AHEAD.includes(state);
}

/** A deposit is taken for the work or a part of it, or kept as the fee when there is none. */
export function takesDeposits(bill: Bill): boolean {
  return billsWork(bill) || bill.lines.some((l) => l.what === 'fee' || l.what === 'share');
}

/** What was done of one stage: attended minutes, and the share of the stage that is finished. */
export type StageDone = { readonly kind: StageKind; readonly workedMin: number; readonly donePpm: Ppm };

/**
 * The done share of each agreed stage. Plans change on the way: a stage is found by its kind, and where a kind occurs
 * more often than agreed (one was dropped and planned anew) the furthest ones count.
 */
export function sharesOf(agreed: readonly StageLabour[], done: readonly StageDone[]): Ppm[] {
  const taken = new Map<StageKind, number>();
  return agreed.map(({ kind }) => {
    const at = taken.get(kind) ?? 0;
    taken.set(kind, at + 1);
    const own = done.filter((d) => d.kind === kind).map((d) => d.donePpm);
    return own.sort((a, b) => b - a)[at] ?? (0 as Ppm);
  });
}

/**
 * Lines of a job that was stopped half way: of each agreed stage the share that is done, materials by the share of
 * all agreed labour that is done. Stages that nobody started cost nothing.
 */
export function halfWayLines(
  agreed: readonly StageLabour[],
  done: readonly StageDone[],
  materialsMinor: Minor,
  tax: LineTax,
  textOf: (what: LineKind) => string,
): BillLine[] {
  const materials = materialsDone(agreed, done, materialsMinor);
  const lines = labourLines(partsDone(agreed, done), tax, textOf);
  return materials === 0
    ? lines
    : [...lines, agreedLine('materials', textOf('materials'), 0, materials, tax)];
}

/** Materials of a job stopped half way: by the share of all agreed labour that is done. */
export function materialsDone(
  agreed: readonly StageLabour[],
  done: readonly StageDone[],
  materialsMinor: Minor,
): Minor {
  const whole = sum(agreed.map((a) => a.amountMinor));
  const billed = sum(partsDone(agreed, done).map((p) => p.amountMinor));
  return (whole === 0 ? 0 : Math.round((materialsMinor * billed) / whole)) as Minor;
}

function partsDone(agreed: readonly StageLabour[], done: readonly StageDone[]): StageLabour[] {
  const shares = sharesOf(agreed, done);
  const share = (i: number): Ppm => shares[i] ?? (0 as Ppm);
  return agreed.map(
    (stage, i): StageLabour => ({
      kind: stage.kind,
      minutes: timesPpm(stage.minutes as Minor, share(i)),
      amountMinor: timesPpm(stage.amountMinor, share(i)),
    }),
  );
}

/** Lines of labour by the time really taken, at the hourly price of each stage; one line for each price. Materials as given. */
export function timedLines(
  done: readonly StageDone[],
  rates: StageRates,
  materialsMinor: Minor,
  tax: LineTax,
  textOf: (what: LineKind) => string,
): BillLine[] {
  const timed = new Map<string, { what: LineKind; hourMinor: Minor; worked: number }>();
  for (const stage of done) {
    const [what, hourMinor] = [lineKindOf(stage.kind), rates[stage.kind]];
    const worked = (timed.get(`${what}/${hourMinor}`)?.worked ?? 0) + stage.workedMin;
    timed.set(`${what}/${hourMinor}`, { what, hourMinor, worked });
  }
  const lines = [...timed.values()]
    .filter(({ worked }) => worked > 0)
    .map(
      ({ what, hourMinor, worked }): BillLine => ({
        what,
        text: textOf(what),
        quantity: worked,
        unit: 'min',
        per: 60,
        priceMinor: hourMinor,
        discountMinor: 0,
        tax,
      }),
    );
  return materialsMinor === 0
    ? lines
    : [...lines, agreedLine('materials', textOf('materials'), 0, materialsMinor, tax)];
}

/**
 * Which lines a job is billed by: what was agreed, or the time, or the lower of both. Stopped half way, the time still
 * counts where it was agreed to; else the share that is done.
 */
export function basisOfBill(
  basis: QuoteBasis,
  stopped: boolean,
  agreedMinor: Minor,
  timedMinor: Minor,
): 'agreed' | 'timed' | 'halfWay' {
  if (basis === 'byTime') return 'timed';
  if (stopped) return 'halfWay';
  if (basis === 'notAbove' && timedMinor < agreedMinor) return 'timed';
  return 'agreed';
}
