import { expect } from 'vitest';
import type { Run } from '../run.ts';

/** Three readings on each of four panels; the right front door is thin. */
const FILM: readonly (readonly [panel: string, figures: string])[] = [
  ['bo', '118 121 119'],
  ['ro', '112 115,5 114'],
  ['lfd', '131 128 129'],
  ['rfd', '84 82 86'],
];
type Seen = readonly [panel: string, defect: string, severity: string];
const FOUND: readonly Seen[] = [
  ['bo', 'swirls', 'heavy'],
  ['bo', 'etching', 'heavy'],
  ['ro', 'swirls', 'moderate'],
  ['lfd', 'swirls', 'moderate'],
  ['rfd', 'swirls', 'moderate'],
  ['fb', 'stone chips', 'light'],
];

/** The paint under the lamp, panel by panel, on the flat car. */
export async function inspect(run: Run): Promise<void> {
  await run.page
    .getByRole('navigation', { name: 'Steps' })
    .getByRole('button', { name: 'Inspection' })
    .click();
  await run.press('Start the inspection');
  for (const [panel, figures] of FILM) await read(run, panel, figures);
  for (const seen of FOUND) await find(run, seen);
  await plasticPanel(run);
  await run.choose(/^Felt through a bag/, 'gritty');
  await run.shot('06-findings');
  await run.page.getByText('Film', { exact: true }).click();
  await run.shot('06-film');
  written(run);
}

async function pick(run: Run, panel: string): Promise<void> {
  await run.page.locator(`main [data-panel="${panel}"]`).first().click();
}

async function read(run: Run, panel: string, figures: string): Promise<void> {
  await pick(run, panel);
  // The first digit is typed on the drawing itself: the field takes it and the rest.
  const on = run.page.locator(`main [data-panel="${panel}"]`).first();
  await on.press(figures.charAt(0));
  await run.page.keyboard.type(figures.slice(1));
  await run.page.keyboard.press('Enter');
  await expect.poll(() => run.page.getByRole('button', { name: /^Remove \d/ }).count()).toBe(3);
}

async function find(run: Run, [panel, defect, severity]: Seen): Promise<void> {
  await pick(run, panel);
  await run.page.keyboard.press('f');
  const form = run.page.getByRole('region', { name: 'Add a finding' });
  await run.choose(/^what/, defect, form);
  await form.getByText(severity, { exact: true }).click();
  await run.press('Add', form);
  await form.waitFor({ state: 'detached' });
  await run.see(`${defect}, ${severity}`);
}

/** A gauge for metal reads nothing on a bumper, and says so instead of taking a figure. */
async function plasticPanel(run: Run): Promise<void> {
  await pick(run, 'rb');
  await run.see('This gauge can’t read plastic.');
  await pick(run, 'fb');
  await run.see('This gauge can’t read plastic.');
  await pick(run, 'rfd');
  await run.see('thin');
  await pick(run, 'bo');
}

function written(run: Run): void {
  expect(
    run
      .rows('SELECT panel, tenth_um FROM film_reading ORDER BY panel, tenth_um')
      .map((r) => Object.values(r)),
  ).toEqual([
    ...[1180, 1190, 1210].map((v) => ['bo', v]),
    ...[1280, 1290, 1310].map((v) => ['lfd', v]),
    ...[820, 840, 860].map((v) => ['rfd', v]),
    ...[1120, 1140, 1155].map((v) => ['ro', v]),
  ]);
  expect(run.row('SELECT count(*) AS n FROM finding')).toEqual({ n: FOUND.length });
}
