import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addLocalDays, localDayOf } from '#core/shared/time.ts';
import { findChromium } from '../helpers/chromium.ts';
import { pdfText } from '../helpers/pdfText.ts';
import { BOARD_NOW, type BoardShop, openBoardShop, stage } from './boardShop.ts';

const choice = findChromium();
const CUT = [stage('cut', 'correction', 'correction', 240)];
const TODAY = localDayOf(BOARD_NOW, 'Europe/Vienna');

/** What nobody should do at the board, by keyboard: each is refused in words, and nothing moves. */
describe.skipIf(choice === null)('odd input at the bay board', () => {
  let shop: BoardShop;
  let page: Page;
  let jobId = '';
  const placed = () => shop.rows('SELECT start_min, end_min, bay_id FROM placement WHERE job_id = ?', jobId);
  const press = async (...keys: readonly string[]) => {
    for (const key of keys) await page.keyboard.press(key);
  };
  const times = (key: string, n: number) => Array.from({ length: n }, () => key);
  const refused = async (keys: readonly string[], words: RegExp) => {
    const before = placed();
    await shop.workOf(jobId).focus();
    await press('Enter');
    await page.getByText(/Arrows move by a quarter/).waitFor();
    await press(...keys);
    await page.getByRole('alert').getByText(words).first().waitFor();
    await press('Enter');
    await page.waitForTimeout(400);
    expect(placed()).toEqual(before);
    await page.getByRole('alert').getByText(words).first().waitFor();
    await press('Escape');
    await expect.poll(() => page.getByRole('alert').getByText(words).count()).toBe(0);
  };
  const offersOf = async (stages: readonly ReturnType<typeof stage>[]) => {
    const id = await shop.newJob('Greta Eskeland', 'Pellane Rand', stages);
    await page.evaluate((job) => {
      sessionStorage.setItem('rakelight.hand', JSON.stringify({ current: job, laidDown: [] }));
    }, id);
    await page.reload();
    return page.getByRole('region', { name: 'Offers' });
  };

  beforeAll(async () => {
    if (!choice) return;
    shop = await openBoardShop(choice);
    page = shop.page;
    jobId = await shop.newJob('Marit Vane', 'Velloy Merrin', CUT);
    await shop.book(jobId);
    await page.evaluate(() => {
      location.hash = '/bays';
    });
    await shop.workOf(jobId).waitFor();
  });
  afterAll(() => shop?.close());

  it('refuses a move into the past', () =>
    refused(times('Shift+ArrowLeft', 3), /that time has passed|only just arrived/));

  it('refuses a move into a bay that is closed', async () => {
    const [day, next] = [addLocalDays(TODAY, 1), addLocalDays(TODAY, 2)];
    for (const { bay_id: bayId } of shop.rows<{ bay_id: string }>(
      'SELECT bay_id FROM placement WHERE job_id = ?',
      jobId,
    ))
      await shop.call('bays.addClosure', { fromDay: day, toDay: next, bayId, reason: 'lamp broken' });
    await page.reload();
    await shop.workOf(jobId).waitFor();
    await refused(times('Shift+ArrowRight', 26), /is closed then/);
  });

  it('refuses an end drawn to next to nothing, and a cut at the very end', async () => {
    await refused(['r', ...times('ArrowLeft', 24)], /not enough working time/);
    await refused(['s', ...times('ArrowRight', 24)], /that minute is not inside its work/);
    expect(shop.faults).toEqual([]);
  });

  it('says of an impossible job the one rule that makes it so', async () => {
    const nowhere = await offersOf([stage('protect', 'protection', 'correction', 60)]);
    await nowhere.getByText(/there is no bay for protect/).waitFor();
    const long = { ...stage('cut', 'correction', 'correction', 1000), splittable: false };
    await (await offersOf([long])).getByText(/longer than any stretch of working time/).waitFor();
    await page.evaluate(() => sessionStorage.removeItem('rakelight.hand'));
    await page.reload();
    await shop.workOf(jobId).waitFor();
  });

  it('prints a board that is too high for one page on two, with the days on both', async () => {
    for (let n = 4; n <= 13; n += 1) await shop.call('bays.addBay', { name: `Bay ${n}`, kind: 'correction' });
    for (const name of ['Runa Quill', 'Tomas Brae', 'Ottoline Featherstonehaugh', 'Cato Wren', 'Ida Fenn']) {
      const { id } = await shop.call<{ id: string }>('access.addPerson', { name, role: 'technician' });
      await shop.call('bays.setTechnician', { personId: id, skills: ['wash'], shifts: [] });
    }
    await page.reload();
    await shop.workOf(jobId).waitFor();
    const pages = await pdfText(new Uint8Array(await page.pdf({ preferCSSPageSize: true })));
    expect(pages.length).toBe(2);
    for (const text of pages) expect(text).toContain('Tue 24');
    expect(pages[0]).toContain('Bay 13');
    expect(pages[1]).toContain('Yard');
    expect(pages[1]).toContain('Wren');
  });
});
