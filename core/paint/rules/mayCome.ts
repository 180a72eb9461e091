import type { MayWhy } from '../../shared/views/paint.ts';
import type { FilmSummary } from './film.ts';

/**
 * Film that work took off a panel, 0.1 µm: at earlier visits, at this one, at visits after its readings; and what test
 * spots of this visit took in the one place where they were tried, which the work on the panel leaves out.
 */
export type Taken = {
  readonly earlier: number;
  readonly here: number;
  readonly since: number;
  readonly spots: number;
};

/**
 * Film that a panel has lost at this visit: once it was worked, where most was taken, in the tried place or beside it.
 * Before its work it has lost film in the tried place alone, and that is left out of what is planned.
 */
export function takenHere({ here, spots }: Taken): number {
  return here === 0 ? 0 : Math.max(here, spots);
}

/** All that a panel has lost, as far as it is known. */
export function allTaken(taken: Taken): number {
  return taken.earlier + takenHere(taken) + taken.since;
}

export type MayCase = {
  /** The shop's gauge reads what the panel is made of. */
  readonly readable: boolean;
  readonly before: FilmSummary | null;
  readonly after: FilmSummary | null;
  readonly taken: Taken;
  /** A named person took the panel beyond the rules. */
  readonly approved: boolean;
  readonly floorTenthUm: number;
  readonly capTenthUm: number;
};

export type MayCome = { readonly tenthUm: number | null; readonly why: MayWhy };

/**
 * How much film may still come off a panel, whole 0.1 µm rounded down, never negative; null where nobody can say. The one answer that
 * inspection, job card, film over its life and estimate give.
 * A thin panel gives nothing until a named person approves it. Readings after work are believed; until they are
 * there, what the work was planned to take is taken off what was read before.
 * @source floor and cap: common practice, no source
 */
export function mayComeOff(c: MayCase): MayCome {
  const read = [c.before, c.after].filter((f) => f !== null);
  if (!c.readable) return { tenthUm: null, why: 'cantRead' };
  if (read.length === 0) return { tenthUm: null, why: 'notRead' };
  if (read.some((f) => f.refinished)) return { tenthUm: null, why: 'refinished' };
  if (!c.approved && read.some((f) => f.thin)) return { tenthUm: 0, why: 'thin' };
  const after = c.after?.floor ?? null;
  const before = c.before?.floor ?? null;
  const lowest = after ?? before;
  if (lowest === null) return { tenthUm: null, why: 'tooFew' };
  const unread = c.taken.since + (after === null ? takenHere(c.taken) : 0);
  const room = Math.min(c.capTenthUm - allTaken(c.taken), lowest - unread - c.floorTenthUm);
  return { tenthUm: Math.max(0, Math.floor(room)), why: unread > 0 ? 'planned' : 'read' };
}

/** What was booked against a panel, apart by visit: `jobId` is the visit whose readings count, `later` those after it. */
export function takenAt(
  rows: readonly {
    readonly jobId: string;
    readonly panel: string;
    readonly bookedTenthUm: number;
    readonly method: string;
  }[],
  panel: string,
  jobId: string,
  later: ReadonlySet<string> = new Set(),
): Taken {
  const taken = { earlier: 0, here: 0, since: 0, spots: 0 };
  const visits = Map.groupBy(
    rows.filter((row) => row.panel === panel),
    (row) => row.jobId,
  );
  for (const [visit, booked] of visits) {
    const sum = (isSpot: boolean): number =>
      booked.reduce((all, r) => all + ((r.method === 'spot') === isSpot ? r.bookedTenthUm : 0), 0);
    const [here, spots] = [sum(false), sum(true)];
    if (visit === jobId) Object.assign(taken, { here, spots });
    else taken[later.has(visit) ? 'since' : 'earlier'] += Math.max(here, spots);
  }
  return taken;
}
