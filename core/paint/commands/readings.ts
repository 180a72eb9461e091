import type { WriteCtx } from '../../context.ts';
import { panelsOf } from '../../shared/bodies.ts';
import type { paintEntries } from '../../shared/catalogue/paint.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import type { InspectionId, JobId } from '../../shared/ids.ts';
import { LOCALES, type Locale } from '../../shared/text/say.ts';
import { panelName } from '../../shared/text/sayError.ts';
import { type FilmTenthUm, TENTH_UM_PER_MIL } from '../../shared/units.ts';
import type { ReadingPhase } from '../../shared/views/paint.ts';
import type { BodyStyle, PanelId } from '../../shared/vocabulary.ts';
import { plannedRemoval } from '../../views/filmTaken.ts';
import { type InspectionRows, inspectionRows } from '../../views/inspection.ts';
import { shopOf } from '../../views/shop.ts';
import { farOff } from '../rules/farOff.ts';
import { toTenthUm } from '../rules/filmText.ts';
import { isReadable, NOTHING_TAKEN, panelFacts, usualSubstrate } from '../rules/panelFacts.ts';
import { removedFilm } from '../rules/removed.ts';
import { insertReadings, type NewReading, removeReadingRow } from '../store/inspection.ts';
import { bookedPanels, saveRemoval } from '../store/removal.ts';
import { parseGaugeText } from './gaugeText.ts';
import { needInspection, needPaintJob, noteChange, notePanels } from './notes.ts';

type In<N extends keyof typeof paintEntries> = InputOf<(typeof paintEntries)[N]>;
export type ReadingsAdded = { readonly added: number };

/**
 * Takes in readings of one panel as typed, in the shop's unit unless one is named. Readings after work also book
 * what was taken.
 * @throws FILM_FAR_OFF until it is said to be right, FILM_UNIT_DOUBTFUL, FILM_ABSURD, SUBSTRATE_UNREADABLE, NO_INSPECTION, PANEL_NOT_ON_BODY
 */
export function addReadings(ctx: WriteCtx, input: In<'paint.addReadings'>): ReadingsAdded {
  const look = needInspection(ctx, input.jobId, input.panel);
  const unit = input.unit ?? shopOf(ctx.db).filmUnit;
  const rows = input.values.map((value) => ({
    row: 0,
    panel: input.panel,
    tenthUm: toTenthUm(value, unit, input.sure),
    point: input.at ? (input.point ?? `${input.at.x},${input.at.y}`) : (input.point ?? null),
    x: input.at?.x ?? null,
    y: input.at?.y ?? null,
  }));
  return takeIn(ctx, look.id, input, rows);
}

/** Takes in readings pasted or exported from a gauge, all or none; a refusal names the row. @throws what parseGaugeText and addReadings do */
export function pasteReadings(ctx: WriteCtx, input: In<'paint.pasteReadings'>): ReadingsAdded {
  const look = needInspection(ctx, input.jobId);
  const job = needPaintJob(ctx, input.jobId);
  const unit = input.unit ?? shopOf(ctx.db).filmUnit;
  const { body } = job;
  const rows = parseGaugeText(input.text, { unit, sure: input.sure, body, nameOf: panelsByName(body) });
  const placed = rows.map((row) => ({ ...row, x: null, y: null }));
  return takeIn(ctx, look.id, input, placed);
}

/** Takes one reading back: a slip of the gauge. @throws NOT_FOUND */
export function removeReading(ctx: WriteCtx, input: In<'paint.removeReading'>): null {
  const look = needInspection(ctx, input.jobId);
  if (!removeReadingRow(ctx.db, look.id, input.readingId, ctx.now))
    refuse('NOT_FOUND', { what: 'reading', id: String(input.readingId) });
  noteChange(ctx, look.id, 'readings');
  bookRemoval(ctx, { jobId: input.jobId });
  return null;
}

/** A gauge may name panels in any words that the program knows, whatever the shop's own are. */
function panelsByName(body: BodyStyle): ReadonlyMap<string, PanelId> {
  const named = (locale: Locale): [string, PanelId][] =>
    panelsOf(body).map((panel) => [panelName(locale, panel, body), panel]);
  return new Map(LOCALES.flatMap(named));
}

/** `row` = where a reading stands in a gauge's text, 0 = typed. */
type Placed = Pick<NewReading, 'panel' | 'point' | 'x' | 'y'> & {
  readonly row: number;
  readonly tenthUm: number;
};

function takeIn(
  ctx: WriteCtx,
  id: InspectionId,
  how: { readonly jobId: JobId; readonly phase: ReadingPhase; readonly right: boolean },
  rows: readonly Placed[],
): ReadingsAdded {
  const { jobId, phase } = how;
  const noted = inspectionRows(ctx.db, id);
  const { body } = needPaintJob(ctx, jobId);
  for (const { panel, row } of rows) {
    const substrate = noted.states.find((s) => s.panel === panel)?.substrate ?? usualSubstrate(panel);
    if (!isReadable(substrate)) refuse('SUBSTRATE_UNREADABLE', { panel, body, substrate, row });
  }
  if (!how.right) askAboutFarOff(ctx, { noted, phase, body }, rows);
  const base = { inspectionId: id, phase, personId: ctx.actor?.personId ?? null, atMs: ctx.now };
  insertReadings(
    ctx.db,
    rows.map(({ row: _row, ...one }) => ({ ...base, ...one, tenthUm: one.tenthUm as FilmTenthUm })),
  );
  notePanels(
    ctx,
    id,
    rows.map((row) => row.panel),
    'readings',
  );
  bookRemoval(ctx, { jobId });
  return { added: rows.length };
}

/** @throws FILM_FAR_OFF, in the shop's unit, for the first reading that is likely a slip */
function askAboutFarOff(
  ctx: WriteCtx,
  look: { readonly noted: InspectionRows; readonly phase: ReadingPhase; readonly body: BodyStyle },
  rows: readonly Placed[],
): void {
  const { noted, phase, body } = look;
  const { settings, filmUnit: unit } = shopOf(ctx.db);
  const said = (tenthUm: number): number =>
    unit === 'um' ? Math.round(tenthUm) / 10 : Math.round((tenthUm * 100) / TENTH_UM_PER_MIL) / 100;
  for (const panel of new Set(rows.map((row) => row.panel))) {
    const read = (of: ReadingPhase): number[] =>
      noted.readings.filter((r) => r.panel === panel && r.phase === of && !r.overtaken).map((r) => r.tenthUm);
    const fresh = rows.filter((row) => row.panel === panel).map((row) => row.tenthUm);
    const before = phase === 'after' ? read('before') : [];
    const off = farOff(fresh, read(phase), before, settings.paint.gaugeUncertaintyTenthUm);
    if (off) {
      const row = rows.find((one) => one.panel === panel && one.tenthUm === off.tenthUm)?.row ?? 0;
      const data = { value: said(off.tenthUm), against: said(off.against), unit, why: off.why };
      refuse('FILM_FAR_OFF', { panel, body, row, ...data });
    }
  }
}

/**
 * Books what was taken off each panel that was read after work: the larger of the plan and what readings show.
 * Called whenever readings come or go; panels worked on but never read count with their plan.
 */
function bookRemoval(ctx: WriteCtx, input: { readonly jobId: JobId }): void {
  const look = needInspection(ctx, input.jobId);
  const noted = inspectionRows(ctx.db, look.id);
  const rules = shopOf(ctx.db).settings.paint;
  const plan = plannedRemoval(ctx.db, input.jobId);
  const after = noted.readings.filter((r) => r.phase === 'after');
  const read = after.map((r) => r.panel);
  // A panel whose last reading after work was taken back falls to its plan again.
  for (const panel of new Set([...read, ...bookedPanels(ctx.db, input.jobId)])) {
    const facts = panelFacts(panel, noted, NOTHING_TAKEN, rules);
    const planned = plan.get(panel) ?? 0;
    // A panel worked on since it was read has lost at least what was shown then.
    const seen = facts.after.length > 0 ? facts.after : after.filter((r) => r.panel === panel);
    const removed = removedFilm(facts.before, seen, planned, rules.gaugeStepTenthUm);
    saveRemoval(ctx.db, {
      jobId: input.jobId,
      panel,
      plannedTenthUm: planned as FilmTenthUm,
      shownTenthUm: removed.difference === null ? null : (Math.round(removed.difference) as FilmTenthUm),
      shown: removed.shown,
      method: removed.method,
      bookedTenthUm: Math.max(planned, Math.round(removed.booked)) as FilmTenthUm,
      atMs: ctx.now,
    });
  }
  ctx.changed(input.jobId, 'panelRemoval');
}
