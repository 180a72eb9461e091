import type { Locator } from 'playwright-core';
import { expect } from 'vitest';
import type { Run } from '../run.ts';
import { clockNow, finishStage, jobNow, madeId, minutesLater, stageNow, startStage } from '../work.ts';

/** Refining runs far past its range: it is recorded, shown, and the board finds a plan that holds again. */
export async function overrun(run: Run): Promise<void> {
  await run.signIn('Wren Tarn');
  await run.open(`/jobs/${madeId(run, 'job')}/card`);
  await startStage(run, /^refine/);
  const stage = await stageNow(run, 'refine');
  await minutesLater(run, stage.p80Min + 75);
  await run.page.reload();
  await run.page.getByRole('timer').waitFor();
  await run.shot('18-running');
  await run.signIn('Ines Örtel', '4711');
  await otherCarWaits(run);
  await run.open('/bays');
  await run.see(/refine is \d+ min over its time/);
  await run.shot('18-conflict');
  await planAnew(run);
  await run.shot('18-replanned');
  await finishIt(run);
}

/** Meanwhile the second car has come, if its time was today, and waits. */
async function otherCarWaits(run: Run): Promise<void> {
  const other = await jobNow(run, 'secondJob');
  if (other.state !== 'booked' || (other.promise.dropOffMin ?? 0) * 60_000 > (await clockNow(run))) return;
  await run.open(`/jobs/${other.id}/arrive`);
  await run.page.getByText('said so').click();
  await run.press('The car is here');
  await run.see(/^came/);
  expect((await jobNow(run, 'secondJob')).state).toBe('here');
}

const BEHIND = `SELECT count(*) AS n FROM placement p JOIN job_stage s ON s.id = p.stage_id
  WHERE s.state = 'planned' AND p.start_min < ?`;

/** What happened stays; stages that time has passed are laid anew, all at once, and no rule is broken. */
async function planAnew(run: Run): Promise<void> {
  const nowMin = Math.floor((await clockNow(run)) / 60_000);
  expect(run.row(BEHIND, nowMin)['n']).toBeGreaterThan(0);
  await run.press('Re-plan');
  const panel = run.page.getByRole('region', { name: 'Re-plan' });
  await run.see(/passed by the time and can’t come true/, panel);
  await run.shot('18-proposed');
  // Nobody's promise moves without their word, and none is less sure than the shop wants unless the desk chooses it:
  // each is marked by name, and until then nothing can be applied.
  const asked = panel.getByRole('checkbox', { name: /^(agrees|promise at)/ });
  const apply = panel.getByRole('button', { name: 'Apply all' });
  if ((await asked.count()) > 0) {
    expect(await apply.getAttribute('aria-disabled')).toBe('true');
    await run.shot('18-consent');
    for (const box of await asked.all()) await box.check({ force: true });
  }
  await expect.poll(() => apply.getAttribute('aria-disabled')).not.toBe('true');
  await applied(panel, apply);
  expect(run.row(BEHIND, nowMin)['n']).toBe(0);
  expect(await run.ask('bays.faults', {})).toEqual([]);
  await run.see(/refine is \d+ min over its time/);
}

/** Presses until the panel has gone: where the page moved under the hand, a press can miss. A refusal is told in its words. */
async function applied(panel: Locator, apply: Locator): Promise<void> {
  const press = async (): Promise<string> => {
    if ((await panel.count()) === 0) return 'applied';
    const refused = await panel.getByRole('alert').allTextContents();
    if (refused.length === 0) await apply.click({ timeout: 2000 }).catch(() => {});
    return refused.join(' ');
  };
  await expect.poll(press, { interval: 1500 }).toBe('applied');
}

/** The end of the stage keeps how far it ran over. */
async function finishIt(run: Run): Promise<void> {
  await run.signIn('Wren Tarn');
  await run.open(`/jobs/${madeId(run, 'job')}/card`);
  await finishStage(run);
  const stage = await stageNow(run, 'refine');
  expect(stage.attendedMs / 60_000).toBe(stage.p80Min + 75);
  const { conflicts } = await jobNow(run);
  expect(conflicts).toContainEqual(
    expect.objectContaining({ kind: 'overrun', stage: 'refine', overMin: 75 }),
  );
}
