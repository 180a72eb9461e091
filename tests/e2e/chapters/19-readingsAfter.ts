import { expect } from 'vitest';
import type { JobId, VehicleId } from '#core/shared/ids.ts';
import { panelName } from '#core/shared/text/sayError.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import type { Run } from '../run.ts';
import { finishStage, jobNow, madeId, minutesLater, stageNow, workStage } from '../work.ts';

/** Film that the machine took, 0.1 µm, as the gauge reads it. */
const TOOK = 40;

/** After the machine the same panels are read again: what went is kept, and what is left for life. */
export async function readingsAfter(run: Run): Promise<void> {
  const jobId = madeId<JobId>(run, 'job');
  await run.open(`/jobs/${jobId}/card`);
  await run.press('Reading');
  await run.page.getByRole('region', { name: 'Reading' }).waitFor();
  const view = await run.ask('paint.inspectionOf', { jobId });
  const machined = (await stageNow(run, 'refine')).panels;
  const read = (view?.panels ?? []).filter((p) => p.film && machined.includes(p.panel));
  expect(read.length).toBeGreaterThan(0);
  for (const panel of read) await readAgain(run, panel.panel, panel.film?.meanTenthUm ?? 0);
  await run.shot('19-readings');
  await filmLeft(
    run,
    jobId,
    read.map((p) => p.panel),
  );
  await restOfTheWork(run);
}

async function readAgain(run: Run, panel: PanelId, before: number): Promise<void> {
  await run.page.locator(`[data-panel="${panel}"]`).click();
  const name = panelName('en', panel, 'hatch');
  await run.page
    .getByRole('heading', { name: new RegExp(`^${name}`, 'i') })
    .first()
    .waitFor();
  await run.pick('read before or after work', 'after');
  const said = [0, 3, -3].map((d) => ((before - TOOK + d) / 10).toFixed(1)).join(' ');
  await run.fill('readings in µm', said);
  await run.press('Keep these readings');
  await run.page
    .getByRole('button', { name: /^Remove / })
    .nth(2)
    .waitFor();
}

/** The vehicle's own page keeps it for the next visit: mean before, mean after, between them what went. */
async function filmLeft(run: Run, jobId: JobId, panels: readonly PanelId[]): Promise<void> {
  const vehicleId = run.row('SELECT vehicle_id FROM job WHERE id = ?', jobId)['vehicle_id'] as VehicleId;
  await run.open(`/jobs/${jobId}/inspection`);
  await run.page.getByRole('link', { name: 'Film over its life' }).click();
  await run.page.getByRole('main', { name: 'Film over its life' }).waitFor();
  const history = await run.ask('paint.filmHistory', { vehicleId });
  for (const panel of panels) {
    const visit = history.visits[0]?.panels.find((p) => p.panel === panel);
    const took = (visit?.before?.meanTenthUm ?? 0) - (visit?.after?.meanTenthUm ?? 0);
    expect(Math.abs(took - TOOK)).toBeLessThanOrEqual(1);
    const budget = history.budgets.find((b) => b.panel === panel)?.budget;
    expect(budget?.takenTenthUm).toBeGreaterThan(0);
    expect(budget?.mayTenthUm).toBe((budget?.capTenthUm ?? 0) - (budget?.takenTenthUm ?? 0));
  }
  const rows = 'SELECT count(*) AS n FROM film_reading WHERE phase = ?';
  expect(run.row(rows, 'after')['n']).toBe(3 * panels.length);
  await run.shot('19-film');
}

/** A cure begins when what has to cure is on; nobody attends it. */
async function curedByItself(run: Run, dwellMin: number): Promise<void> {
  await run.page.getByRole('button', { name: /^cure\s*curing till/ }).click();
  await minutesLater(run, dwellMin + 5);
  await finishStage(run);
}

/** Next morning: wipe, protect, an hour's cure that nobody attends, the last look. */
async function restOfTheWork(run: Run): Promise<void> {
  const stages = (await jobNow(run)).stages.filter((s) => s.state === 'planned');
  await minutesLater(run, 15 * 60);
  await run.signIn('Wren Tarn');
  await run.open(`/jobs/${madeId(run, 'job')}/card`);
  for (const { kind, p50Min, dwellMin } of stages) {
    const word = { panelWipe: 'panel wipe', finalCheck: 'final check' }[kind as string] ?? kind;
    if (kind === 'cure') await curedByItself(run, dwellMin);
    else await workStage(run, new RegExp(`^${word}`), p50Min + 3);
  }
  await run.see('The car is ready.');
  expect((await jobNow(run)).state).toBe('ready');
  await run.shot('19-ready');
}
