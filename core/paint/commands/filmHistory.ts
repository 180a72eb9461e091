import type { ReadCtx } from '../../context.ts';
import { panelsOf } from '../../shared/bodies.ts';
import { refuse } from '../../shared/errors.ts';
import type { InspectionId, VehicleId } from '../../shared/ids.ts';
import type { ShopSettings } from '../../shared/settings.ts';
import { localDayOf } from '../../shared/time.ts';
import type { FilmTenthUm } from '../../shared/units.ts';
import type {
  FilmHistoryView,
  FilmView,
  LifeBudgetView,
  RemovalView,
  VisitFilmView,
} from '../../shared/views/paint.ts';
import type { PanelId } from '../../shared/vocabulary.ts';
import { filmTaken, type TakenRow, type VisitRow, visitsOf } from '../../views/filmTaken.ts';
import { foundView, type InspectionRows, inspectionRows, paintVehicle } from '../../views/inspection.ts';
import { shopOf } from '../../views/shop.ts';
import type { FilmSummary } from '../rules/film.ts';
import { allTaken, takenAt } from '../rules/mayCome.ts';
import { NOTHING_TAKEN, type PanelFacts, panelFacts } from '../rules/panelFacts.ts';

const NOTHING: InspectionRows = { states: [], findings: [], consents: [], readings: [], spots: [] };

/** Film of a vehicle over all its visits here, and what is left of each panel's life budget. @throws NOT_FOUND */
export function filmHistory(ctx: ReadCtx, input: { readonly vehicleId: VehicleId }): FilmHistoryView {
  const vehicle =
    paintVehicle(ctx.db, input.vehicleId) ?? refuse('NOT_FOUND', { what: 'vehicle', id: input.vehicleId });
  const rules = shopOf(ctx.db).settings.paint;
  const taken = filmTaken(ctx.db, vehicle.vehicleId);
  const visits = visitsOf(ctx.db, vehicle.vehicleId);
  const { latest, noted, later } = latestRead(ctx, visits);
  const known = knownFromNew(ctx, vehicle);
  const budgets = panelsOf(vehicle.body).map((panel) => {
    const booked = takenAt(taken, panel, latest, later);
    const facts = panelFacts(panel, noted, booked, rules);
    return { panel, budget: budgetView(facts, allTaken(booked), 0, known) };
  });
  return {
    vehicleId: vehicle.vehicleId,
    body: vehicle.body,
    visits: visitFilms(ctx, vehicle.vehicleId, taken, rules),
    budgets,
  };
}

type LatestRead = {
  readonly latest: string;
  readonly noted: InspectionRows;
  readonly later: ReadonlySet<string>;
};

/** The latest visit on which any film was read, what was noted there, and the visits after it. */
function latestRead(ctx: Pick<ReadCtx, 'db'>, visits: readonly VisitRow[]): LatestRead {
  for (let i = visits.length - 1; i >= 0; i -= 1) {
    const visit = visits[i];
    if (!visit?.inspectionId) continue;
    const noted = inspectionRows(ctx.db, visit.inspectionId as InspectionId);
    if (noted.readings.length === 0) continue;
    return { latest: visit.jobId, noted, later: new Set(visits.slice(i + 1).map((v) => v.jobId)) };
  }
  return { latest: '', noted: NOTHING, later: new Set() };
}

/** True when the vehicle's first visit here was in the year it was built: only then is its film history known. */
export function knownFromNew(
  ctx: Pick<ReadCtx, 'db'>,
  vehicle: { readonly vehicleId: VehicleId; readonly year: number | null },
): boolean {
  const first = visitsOf(ctx.db, vehicle.vehicleId)[0];
  if (!first || vehicle.year === null) return false;
  return Number(localDayOf(first.atMs, shopOf(ctx.db).zone).slice(0, 4)) <= vehicle.year;
}

/** What was read and taken on each visit, panels without either left out. Oldest first. */
export function visitFilms(
  ctx: Pick<ReadCtx, 'db'>,
  vehicleId: VehicleId,
  taken: readonly TakenRow[],
  rules: ShopSettings['paint'],
): VisitFilmView[] {
  return visitsOf(ctx.db, vehicleId).map((visit) => visitFilm(ctx, visit, taken, rules));
}

function visitFilm(
  ctx: Pick<ReadCtx, 'db'>,
  visit: VisitRow,
  taken: readonly TakenRow[],
  rules: ShopSettings['paint'],
): VisitFilmView {
  const noted = visit.inspectionId ? inspectionRows(ctx.db, visit.inspectionId as InspectionId) : NOTHING;
  const here = taken.filter((t) => t.jobId === visit.jobId).filter(isBooked);
  const panels = new Set<PanelId>([...noted.readings.map((r) => r.panel), ...here.map((t) => t.panel)]);
  return {
    jobId: visit.jobId,
    jobNumber: visit.number,
    atMs: visit.atMs,
    panels: [...panels].map((panel) => {
      const facts = panelFacts(panel, noted, NOTHING_TAKEN, rules);
      const row = here.find((t) => t.panel === panel);
      return {
        panel,
        before: filmView(facts.film),
        after: filmView(facts.filmAfter),
        removal: row ? removalView(row) : null,
      };
    }),
    found: noted.findings.map((f) => ({ panel: f.panel, ...foundView(f) })),
  };
}

type Booked = TakenRow & { readonly method: RemovalView['method'] };

/** Film of the work on a panel; what a test spot took in its one place is no work on the panel. */
function isBooked(row: TakenRow): row is Booked {
  return row.method !== 'spot';
}

function removalView(row: Booked): RemovalView {
  return {
    plannedTenthUm: row.plannedTenthUm,
    shownTenthUm: row.shownTenthUm,
    shown: row.shown === 1,
    bookedTenthUm: row.bookedTenthUm,
    method: row.method,
  };
}

/** What was taken, what is planned and what may still come off. A refinished panel has a new stack nobody knows. */
export function budgetView(
  facts: PanelFacts,
  taken: number,
  planned: number,
  historyKnown: boolean,
): LifeBudgetView {
  const { tenthUm, why } = facts.may;
  return {
    capTenthUm: tenth(facts.capTenthUm),
    takenTenthUm: tenth(taken),
    plannedTenthUm: tenth(planned),
    mayTenthUm: tenthUm === null ? null : tenth(tenthUm),
    why,
    historyKnown: historyKnown && !(facts.film?.refinished ?? false),
  };
}

export function tenth(value: number): FilmTenthUm {
  return Math.round(value) as FilmTenthUm;
}

export function filmView(film: FilmSummary | null): FilmView | null {
  if (!film) return null;
  return {
    n: film.n,
    meanTenthUm: tenth(film.mean),
    sTenthUm: tenth(film.s),
    minTenthUm: tenth(film.min),
    maxTenthUm: tenth(film.max),
    interval: film.interval
      ? { lowTenthUm: tenth(film.interval.low), highTenthUm: tenth(film.interval.high) }
      : null,
    floorTenthUm: film.floor === null ? null : tenth(film.floor),
    thin: film.thin,
    refinished: film.refinished,
  };
}
