import { expect } from 'vitest';
import type { Run } from '../run.ts';

/** The estimate from the panels as seen: stages in order, hours with a range, materials, price, what stays. */
export async function estimateByPanels(run: Run): Promise<void> {
  await run.page.getByRole('link', { name: 'Estimate', exact: true }).click();
  await run.press('Estimate from the inspection');
  await expect.poll(() => run.rows("SELECT id FROM estimate WHERE basis = 'inspected'").length).toBe(1);
  await run.see(/^version 2, from the inspection/);
  await run.page.getByRole('table', { name: 'Stages' }).getByText('cut').waitFor();
  const e = run.row(
    "SELECT p20_min, p50_min, p80_min, total_minor, stages, limits, panels, sigma FROM estimate WHERE basis = 'inspected'",
  );
  const kinds = (JSON.parse(String(e['stages'])) as { kind: string }[]).map((s) => s.kind);
  expect(kinds).toEqual([...ORDER].filter((kind) => kinds.includes(kind)));
  // No machine before decontaminate and clay, cut before refine: common practice, no source.
  expect(kinds).toEqual(
    expect.arrayContaining(['wash', 'decontaminate', 'clay', 'cut', 'refine', 'protect']),
  );
  expect(Number(e['p20_min'])).toBeLessThan(Number(e['p50_min']));
  expect(Number(e['p50_min'])).toBeLessThan(Number(e['p80_min']));
  const told = run.row("SELECT sigma FROM estimate WHERE basis = 'provisional'");
  expect(Number(e['sigma'])).toBeLessThan(Number(told['sigma']));
  await limits(run);
  await run.see('heavy-cut compound', run.page.getByRole('table', { name: 'Materials' }));
  await run.shot('07-estimate');
}

const ORDER = [
  ...['inspection', 'wash', 'decontaminate', 'clay', 'mask', 'cut', 'refine', 'panelWipe', 'protect'],
  ...['cure', 'interior', 'finalCheck', 'handover'],
];

/** Etched pits go deeper than may come off, chips are no film at all, and the thin door is not cut. */
async function limits(run: Run): Promise<void> {
  const list = run.page.getByRole('list', { name: 'What stays, and what may only soften' });
  await run.see(/etching/i, list);
  await run.see(/stone chips/i, list);
  await run.see(/right front door/i, list);
}
