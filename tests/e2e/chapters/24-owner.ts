import { expect } from 'vitest';
import type { Run } from '../run.ts';
import { madeId } from '../work.ts';

const PARTS = ['attendedMin', 'cureMin', 'waitingMin', 'blockedMin', 'idleMin'] as const;

/** The owner looks back: bay hours to the minute, estimate against actual, what is owed, what to order. */
export async function owner(run: Run): Promise<void> {
  await run.open('/figures');
  await run.page.getByTestId('open-hours').waitFor();
  await run.see('Honest hours');
  await run.shot('24-figures');
  await bayHours(run);
  await honestHours(run);
  await owedAndOrder(run);
}

/** Whole minutes: attended + cure + waiting + blocked + idle = open, for each bay and day, and in all. */
async function bayHours(run: Run): Promise<void> {
  const { today } = await run.ask('billing.readDesk', {});
  const view = await run.ask('figures.utilization', { fromDay: today, toDay: today });
  for (const cell of view.bays.flatMap((b) => b.cells)) {
    expect(PARTS.reduce((sum, part) => sum + cell[part], 0)).toBe(cell.availableMin);
    expect(cell.availableMin + cell.closedMin).toBe(24 * 60);
  }
  expect(view.bays.reduce((sum, b) => sum + b.total.availableMin, 0)).toBe(view.total.availableMin);
  // The sum that is written out on the screen is the same sum, in hours and minutes: it adds up as printed.
  const line = await run.page.getByTestId('open-hours').locator('xpath=..').textContent();
  const shown = [...(line ?? '').matchAll(/(\d[\d.,\u00a0\u202f]*):(\d\d)/g)].map(
    ([, whole = '', minutes = '']) => Number(whole.replace(/\D/g, '')) * 60 + Number(minutes),
  );
  const open = shown.at(-1) ?? 0;
  const parts = shown.slice(0, -1);
  expect(parts).toHaveLength(PARTS.length);
  expect(parts.reduce((a, b) => a + b, 0)).toBe(open);
  await run.press('Table: Bay hours');
  await run.page.getByRole('table').first().waitFor();
}

/** Refining ran over: the figures say so, with the minutes of the book. */
async function honestHours(run: Run): Promise<void> {
  const { today } = await run.ask('billing.readDesk', {});
  const view = await run.ask('figures.honesty', { fromDay: today, toDay: today });
  const worked = run.row(
    `SELECT sum(w.end_ms - w.start_ms) / 60000 AS min FROM stage_work w JOIN job_stage s ON s.id = w.stage_id
     WHERE s.job_id = ? AND s.kind = 'refine'`,
    madeId(run, 'job'),
  );
  const all = await run.ask('figures.honesty', { fromDay: '2026-11-01' as never, toDay: today });
  const refine = all.byStage.find((r) => r.label.kind === 'stage' && r.label.stage === 'refine');
  expect(refine?.actualMin).toBe(worked['min']);
  expect(refine?.driftPpm).toBeGreaterThan(1_000_000);
  expect(view.all.stages).toBeLessThanOrEqual(all.all.stages);
  const honest = run.page.getByRole('region', { name: 'Honest hours' });
  await run.see('refine', honest);
  await run.see(/\+\d+/, honest);
}

async function owedAndOrder(run: Run): Promise<void> {
  const rest = run.page.getByRole('region', { name: 'Owed and to order' });
  const desk = await run.ask('billing.readDesk', {});
  expect(desk.ageing.owedMinor).toBe(0);
  await run.see(/€.?0[.,]00/, rest);
  const board = await run.ask('stock.showBoard', {});
  const [line] = board.suggestions.flatMap((s) => s.lines);
  await run.see(line ? line.itemName : 'Nothing needs ordering today.', rest);
  const brought = run.page.getByRole('region', { name: 'What jobs brought' });
  await run.see(/an hour worked, after materials/, brought);
}
