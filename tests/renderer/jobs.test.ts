import path from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { JobView } from '#core/shared/views/bookings.ts';
import { planned } from '#tests/helpers/bookedJob.ts';
import { axeOf } from '../helpers/axe.ts';
import { findChromium } from '../helpers/chromium.ts';
import { openJobFor, openShopWindow, PLAIN, type ShopWindow } from './shopWindow.ts';

const choice = findChromium();
const NAME = 'Jörg Ößterling-Fennimore van der Hexelbach zu Underwood-Marsh';

/** A car from the counter to the customer's hands, in the window, over the real door and a real file. */
describe.skipIf(choice === null)('a job in the window', () => {
  let win: ShopWindow;
  let page: Page;
  let jobId = '';

  async function look(name: string): Promise<void> {
    const into = process.env['RAKELIGHT_LOOK'];
    if (into) await page.screenshot({ path: path.join(into, `${name}.png`) });
  }

  beforeAll(async () => {
    if (!choice) return;
    win = await openShopWindow(choice, PLAIN);
    page = win.page;
    jobId = await openJobFor(win.call, { name: NAME }, { body: 'hatch', makeModel: 'Velloy Tern' });
    const stages = [planned('clay'), planned('cut')];
    await win.call('bookings.setStages', { jobId, basis: 'provisional', stages });
  });
  afterAll(() => win?.close());

  it('finds a job in the list by part of a name in the wrong case', async () => {
    await win.goTo('/jobs');
    await page.getByLabel('Find a job').fill('öSSterl'.replace('SS', 'ß'));
    await page.getByRole('link', { name: NAME }).waitFor();
    await look('jobs');
  });

  it('shows what was asked for, and lets the desk change it after the call: one ceiling, and what being late weighs', async () => {
    await win.goTo(`/jobs/${jobId}`);
    const kept = () => win.call<JobView>('bookings.job', { jobId });
    const change = async (): Promise<void> => {
      await page.getByRole('button', { name: 'Change what was asked for' }).click();
      await page.getByLabel('in their words').waitFor();
    };
    const keep = async (): Promise<void> => {
      await page.getByRole('button', { name: 'Keep it so' }).click();
      await page.getByRole('button', { name: 'Change what was asked for' }).waitFor();
    };
    await change();
    await page.getByLabel('in their words').fill('Swirls in the sun, the Größe of a hand');
    await page.getByLabel('not above, with tax').fill('650');
    await keep();
    await page.getByText('“Swirls in the sun, the Größe of a hand”, not above €650.00').waitFor();
    expect((await kept()).ceilingMinor).toBe(65_000);
    await change();
    await page.getByLabel('not above', { exact: true }).fill('6');
    await page.getByText('as four', { exact: true }).click();
    await look('wish');
    await keep();
    expect([(await kept()).ceilingMinor, (await kept()).ceilingMin]).toEqual([null, 360]);
    expect((await kept()).lateWeight).toBe(4);
    await page.getByText('not above 6.0 h, an hour late counts for 4').waitFor();
  });

  it('takes the car in, with damage on a panel and a drawn signature', async () => {
    await win.goTo(`/jobs/${jobId}/arrive`);
    await page.getByLabel('Mileage').fill('48120');
    await page.locator('[data-panel="fb"]').click();
    // The field that the press opened has the focus already.
    await page.keyboard.type('stone chips');
    await win.goTo('/jobs');
    await page.getByLabel('Find a job').waitFor();
    await win.goTo(`/jobs/${jobId}/arrive`);
    await page.getByText(/^Goes on from today .*not saved yet/).waitFor();
    expect(await page.getByLabel('On the front bumper').inputValue()).toBe('stone chips');
    expect(await page.getByLabel('Mileage').inputValue()).toBe('48,120');
    await page.getByRole('button', { name: 'The car is here' }).click();
    await page.getByText('no signature').waitFor();
    const field = await page.getByRole('img', { name: 'Sign here' }).boundingBox();
    if (!field) throw new Error('no field to sign in');
    await page.mouse.move(field.x + 20, field.y + 60);
    await page.mouse.down();
    await page.mouse.move(field.x + 120, field.y + 30, { steps: 4 });
    await page.mouse.up();
    await look('arrive');
    await page.getByRole('button', { name: 'The car is here' }).click();
    await page.getByRole('heading', { name: NAME }).waitFor();
    const job = await win.call<JobView>('bookings.job', { jobId });
    expect([job.state, job.records[0]?.mileage, job.records[0]?.damage]).toEqual([
      'here',
      48_120,
      [{ panel: 'fb', note: 'stone chips' }],
    ]);
    expect(job.records[0]?.strokes[0]?.length).toBeGreaterThan(2);
    await look('job');
  });

  it('refuses a cut on a car that was not decontaminated until a named person sets the rule aside', async () => {
    await win.goTo(`/jobs/${jobId}/card`);
    await page.getByRole('button', { name: /^cut/ }).click();
    await page.getByRole('button', { name: 'Start', exact: true }).click();
    await page.getByText('Not decontaminated yet').waitFor();
    await page.getByLabel('Why').fill('done at the last visit');
    await page.getByRole('button', { name: 'Approve under my name' }).click();
    // Each rule is read before it is approved.
    await page.getByText('Not clayed yet').waitFor();
    expect((await win.call<JobView>('bookings.job', { jobId })).overrides).toEqual([]);
    await page.getByRole('button', { name: 'Approve under my name' }).click();
    await page.getByRole('button', { name: 'Pause', exact: true }).waitFor();
    const job = await win.call<JobView>('bookings.job', { jobId });
    expect(job.overrides.map((o) => [o.rule, o.by])).toEqual([
      ['decontaminateBeforeMachine', 'Dev Ostler'],
      ['clayBeforeMachine', 'Dev Ostler'],
    ]);
    await page.locator('[data-panel="bo"]').click();
    await page.getByText('1 of 2 panels').waitFor();
    await look('card');
  });

  it('ends a stage only when the button is held, and books what was corrected', async () => {
    const hold = page.getByRole('button', { name: 'Hold to finish' });
    await hold.click();
    expect(await page.getByRole('region', { name: 'Used up' }).count()).toBe(0);
    await hold.hover();
    await page.mouse.down();
    await page.getByRole('region', { name: 'Used up' }).waitFor();
    await page.mouse.up();
    await look('finish');
    await page.getByRole('button', { name: 'Finish the stage' }).click();
    await page.getByRole('navigation', { name: 'Stages' }).waitFor();
    const job = await win.call<JobView>('bookings.job', { jobId });
    expect(job.stages.map((s) => s.state)).toEqual(['planned', 'done']);
  });

  it('shows the car at the desk and hands it over from there once it is ready', async () => {
    const job = await win.call<JobView>('bookings.job', { jobId });
    await win.call('bookings.dropStage', { stageId: job.stages[0]?.id, reason: 'not wanted any more' });
    await win.goTo('/desk');
    await page.getByRole('link', { name: 'Hand over' }).waitFor();
    await look('desk');
    const axe = await axeOf(page).analyze();
    expect(axe.violations.map((v) => [v.id, v.nodes[0]?.html])).toEqual([]);
    await page.getByRole('link', { name: 'Hand over' }).click();
    await page.getByText('signed the printed form').click();
    await page.getByLabel('Keys', { exact: true }).fill('zwei');
    await page.getByRole('button', { name: 'Handed over' }).click();
    await page.getByText('what is typed at “Keys” can’t be used').waitFor();
    await page.getByLabel('Keys', { exact: true }).fill('2');
    await page.getByLabel('Mileage').fill('47100');
    await page.getByRole('button', { name: 'Handed over' }).click();
    await page.getByText('Mileage of 47,100 km now, but 48,120 km were written down on').waitFor();
    await look('handover-mileage');
    await page.getByRole('button', { name: 'The lower mileage is right' }).click();
    await page.getByText('collected').first().waitFor();
    const gone = await win.call<JobView>('bookings.job', { jobId });
    expect([gone.state, gone.records.at(-1)?.mileage]).toEqual(['collected', 47_100]);
    expect(win.faults).toEqual([]);
  });
});
