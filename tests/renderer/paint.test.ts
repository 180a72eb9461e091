import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { EstimateView } from '#core/shared/views/estimate.ts';
import type { InspectionView } from '#core/shared/views/paint.ts';
import { addJob, type PaintCase } from '#tests/core/paint/job.ts';
import { findChromium, launchChromium } from '#tests/helpers/chromium.ts';
import { openTestShop } from '#tests/helpers/shop.ts';
import { type HostProcess, startProgram } from '../bridge/hostProcess.ts';
import { callFrom, signInOwner } from '../e2e/pageCalls.ts';
import { axeOf } from '../helpers/axe.ts';

const chromium = findChromium();

/** A saloon with swirls on seven panels and a thin roof, estimated at two stages, in a folder of its own. */
function prepare(folder: string): PaintCase {
  const shop = openTestShop();
  const job = addJob(shop);
  shop.write('paint.startInspection', { jobId: job.jobId });
  for (const panel of ['bo', 'ro', 'bl', 'lfw', 'rfw', 'lfd', 'rfd'] as const) {
    shop.write('paint.addFindings', {
      jobId: job.jobId,
      panels: [panel],
      defect: 'swirls',
      severity: 'moderate',
    });
    const values = panel === 'ro' ? [86, 88, 90] : [112, 113, 114];
    shop.write('paint.addReadings', { jobId: job.jobId, panel, values });
  }
  shop.write('estimate.fromInspection', { jobId: job.jobId, wish: 'twoStage' });
  shop.db.raw.pragma('wal_checkpoint(TRUNCATE)');
  cpSync(shop.dir, folder, { recursive: true });
  shop.close();
  return job;
}

describe.skipIf(!chromium)(
  `the inspection and the estimate${chromium ? '' : ' (skipped: no Chromium)'}`,
  () => {
    let browser: Browser;
    let host: HostProcess;
    let page: Page;
    let folder: string;
    let job: PaintCase;
    const trouble: string[] = [];

    beforeAll(async () => {
      folder = mkdtempSync(path.join(os.tmpdir(), 'rakelight-paint-'));
      job = prepare(folder);
      if (!chromium) return;
      host = startProgram('start', ['--browser', '--data', folder]);
      const [, url = ''] = await host.said(/Rakelight is ready at (\S+)/);
      browser = await launchChromium(chromium);
      page = await (
        await browser.newContext({
          viewport: { width: 1280, height: 800 },
          reducedMotion: 'reduce',
          hasTouch: true,
        })
      ).newPage();
      page.setDefaultTimeout(5000);
      page.on('console', (m) => (m.type() === 'error' ? trouble.push(m.text()) : undefined));
      page.on('pageerror', (e) => trouble.push(e.message));
      await page.goto(url);
      await page.locator('main').first().waitFor();
      await signInOwner(page);
    });
    afterAll(async () => {
      await browser?.close();
      await host?.stop();
      rmSync(folder, { recursive: true, force: true });
      expect(trouble).toEqual([]);
    });

    async function show(at: string): Promise<void> {
      await page.evaluate((hash) => {
        location.hash = hash;
      }, `/jobs/${job.jobId}/${at}`);
      await page.locator('h1').first().waitFor();
    }
    async function seen(panel: string) {
      const view = (await callFrom(page, 'paint.inspectionOf', { jobId: job.jobId })) as InspectionView;
      return view.panels.find((p) => p.panel === panel);
    }
    const versions = async (): Promise<EstimateView[]> =>
      (await callFrom(page, 'estimate.ofJob', { jobId: job.jobId })) as EstimateView[];

    test('digits on a panel type readings, mil among µm is asked about, nothing is saved meanwhile', async () => {
      await show('inspection');
      await page.locator('[data-panel="lsl"]').click();
      await page.keyboard.type('104 106 4.2');
      await page.keyboard.press('Enter');
      await page.getByText('4.2 looks like mil').waitFor();
      expect((await seen('lsl'))?.readings).toEqual([]);
      await page.getByLabel('readings in µm').fill('104 106 105');
      await page.keyboard.press('Enter');
      await page.getByText('3 readings', { exact: true }).waitFor();
      expect((await seen('lsl'))?.film?.meanTenthUm).toBe(1050);
    });

    test('F opens a finding, Add notes it with its verdict', async () => {
      await page.locator('[data-panel="lsl"]').focus();
      await page.keyboard.press('f');
      await page
        .getByRole('region', { name: 'Add a finding' })
        .getByRole('button', { name: 'Add', exact: true })
        .click();
      await page.getByText('swirls, moderate').waitFor();
      expect((await seen('lsl'))?.findings[0]).toMatchObject({ defect: 'swirls', severity: 'moderate' });
    });

    test('a finding takes a depth range of its own, in the list and in the shop’s file; the usual one comes back', async () => {
      await page.locator('[data-panel="rsl"]').click();
      await page.keyboard.press('f');
      const form = page.getByRole('region', { name: 'Add a finding' });
      expect(await form.getByLabel('depth, from').inputValue()).toBe('0.5');
      await form.getByLabel('depth, from').fill('0.9');
      await form.getByLabel('to', { exact: true }).fill('4.5');
      await form.getByText('Your own range.').waitFor();
      await form.getByRole('button', { name: 'Take the usual one' }).click();
      expect(await form.getByLabel('to', { exact: true }).inputValue()).toBe('1.2');
      await form.getByLabel('to', { exact: true }).fill('127');
      await form.getByRole('button', { name: 'Add', exact: true }).click();
      await form.getByText('127.0 µm deep goes through all the paint').waitFor();
      expect((await seen('rsl'))?.findings).toEqual([]);
      await form.getByLabel('depth, from').fill('0.9');
      await form.getByLabel('to', { exact: true }).fill('4.5');
      await form.getByRole('button', { name: 'Add', exact: true }).click();
      await page.getByText('0.9–4.5').waitFor();
      await form.waitFor({ state: 'detached' });
      expect((await seen('rsl'))?.findings[0]?.depth).toEqual({ lowTenthUm: 9, highTenthUm: 45 });
    });

    test('damage that no depth says anything of asks for none', async () => {
      await page.locator('[data-panel="rsl"]').click();
      await page.keyboard.press('f');
      const form = page.getByRole('region', { name: 'Add a finding' });
      await form.locator('button').first().click();
      await page.getByRole('option', { name: 'stone chips' }).click();
      expect(await form.getByLabel('depth, from').count()).toBe(0);
      await form.getByRole('button', { name: 'Leave it' }).click();
    });

    test('a plastic bumper is said to be unreadable instead of offering a field', async () => {
      await page.locator('[data-panel="fb"]').click();
      await page.getByText('This gauge can’t read plastic').waitFor();
      expect(await page.getByLabel('readings in µm').count()).toBe(0);
    });

    test('a cut on the thin roof is refused in words and taken on by name', async () => {
      await page.locator('[data-panel="ro"]').click();
      await page.getByRole('button', { name: /^Level/ }).click();
      await page.getByRole('option', { name: 'two-step correction' }).click();
      await page.getByText('The roof is thin: no machine works there').waitFor();
      await page.getByLabel('reason, for the quote').fill('owner insists');
      await page.getByRole('button', { name: 'Approve under my name' }).click();
      await page.getByText('Approved by The owner: owner insists').waitFor();
      await expect
        .poll(async () => (await versions())[0]?.limits.some((l) => l.key === 'override'))
        .toBe(true);
    });

    test('the tape goes from one exact choice to the next by arrow, and the choice can be taken', async () => {
      const before = (await versions()).length;
      const tape = page.getByRole('slider', { name: 'best choice along the stair' });
      await tape.focus();
      const said = await tape.getAttribute('aria-valuetext');
      await page.keyboard.press('ArrowLeft');
      await expect.poll(() => tape.getAttribute('aria-valuetext')).not.toBe(said);
      await page.getByRole('button', { name: 'Take this choice' }).click();
      await expect.poll(async () => (await versions()).length).toBe(before + 1);
    });

    test('wet sanding is offered where polishing does not reach, and planned once its owner’s consent is recorded', async () => {
      const at = { jobId: job.jobId, panel: 'lrd' };
      await callFrom(page, 'paint.addFindings', {
        jobId: job.jobId,
        panels: ['lrd'],
        defect: 'etching',
        severity: 'moderate',
      });
      await callFrom(page, 'paint.addReadings', { ...at, values: [118, 119, 120] });
      await show('estimate');
      await page.getByRole('button', { name: 'Owner agrees: left rear door' }).click();
      await page.getByLabel('who agrees').fill('Marit Vane');
      await page.getByRole('button', { name: 'Record the consent and plan it' }).click();
      await page.getByText('Marit Vane agreed to 6.0 µm at most, signed').waitFor();
      expect((await versions())[0]?.stages.find((s) => s.kind === 'sand')?.panels).toEqual(['lrd']);
      await page.getByRole('button', { name: 'Take the consent back' }).click();
      await expect.poll(async () => (await versions())[0]?.stages.some((s) => s.kind === 'sand')).toBe(false);
      await show('inspection');
    });

    test('a test spot slower than planned makes a new version, and the hours show why', async () => {
      await show('estimate');
      const before = (await versions())[0];
      await page.getByLabel('passes', { exact: true }).fill('6');
      await page.getByLabel('seconds for its sections').fill('900');
      await page.keyboard.press('Tab');
      await page.getByRole('button', { name: 'Record the test spot' }).click();
      await page.getByText('corrected by a test spot').waitFor();
      const after = (await versions())[0];
      expect(after?.hours.p50Min).toBeGreaterThan(before?.hours.p50Min ?? 0);
      await page
        .getByRole('button', { name: /^hours/ })
        .first()
        .click();
      await page
        .getByText(/ on this car: ×.*1 test spot/)
        .first()
        .waitFor();
    });

    test('a finger chooses a panel, and a second tap marks the point that the next readings belong to', async () => {
      await show('inspection');
      const panel = page.locator('[data-panel="rrd"]');
      const box = await panel.boundingBox();
      if (!box) throw new Error('the right rear door is drawn');
      const at = (x: number, y: number) =>
        page.touchscreen.tap(box.x + box.width * x, box.y + box.height * y);
      await at(0.5, 0.5);
      await page.getByRole('heading', { name: 'Right rear door' }).waitFor();
      expect(await page.locator('[class*="next"]').count()).toBe(0);
      // Where the finger was, in the drawing's own units.
      const under = await panel.evaluate(
        (one, [x, y]) => {
          const svg = (one as SVGGElement).ownerSVGElement;
          return new DOMPoint(x, y).matrixTransform(svg?.getScreenCTM()?.inverse());
        },
        [box.x + box.width * 0.4, box.y + box.height * 0.6] as const,
      );
      await at(0.4, 0.6);
      await page.locator('[class*="next"]').waitFor();
      await page.getByLabel('readings in µm').tap();
      await page.keyboard.type('108 109 110');
      await page.getByRole('button', { name: 'Add', exact: true }).tap();
      await page.getByText('3 readings', { exact: true }).waitFor();
      const marked = (await seen('rrd'))?.readings.map((r) => r.at);
      expect(marked).toHaveLength(3);
      for (const point of marked ?? []) {
        expect(Math.abs((point?.x ?? 0) - under.x)).toBeLessThanOrEqual(2);
        expect(Math.abs((point?.y ?? 0) - under.y)).toBeLessThanOrEqual(2);
      }
      await page.getByRole('button', { name: 'press F to add' }).tap();
      const form = page.getByRole('region', { name: 'Add a finding' });
      await form.getByText('heavy', { exact: true }).tap();
      await form.getByRole('button', { name: 'Add', exact: true }).tap();
      await expect.poll(async () => (await seen('rrd'))?.findings[0]?.severity).toBe('heavy');
    });

    test('a gauge’s file is taken in whole or not at all, its bad cell named by row and column', async () => {
      await show('inspection');
      await page.getByRole('button', { name: 'Paste from the gauge' }).click();
      const choose = async (text: string, code: 'latin1' | 'utf8' | 'utf16le'): Promise<void> => {
        const file = { name: 'gauge.csv', mimeType: 'text/csv', buffer: Buffer.from(text, code) };
        await page.locator('input[type="file"]').setInputFiles(file);
        await page.getByRole('button', { name: 'Take in' }).click();
      };
      const none = async () => expect((await seen('rrq'))?.readings).toEqual([]);
      await choose('panel;reading\nright rear quarter;108\nTür;104', 'latin1');
      await page.getByText('Row 3, column panel: “T\uFFFDr” is not written in UTF-8').waitFor();
      await choose('where;value\nright rear quarter;108', 'utf8');
      await page.getByText('Row 1, panel: nobody here knows a panel “where”').waitFor();
      await choose('panel;point\nright rear quarter;1', 'utf8');
      await page.getByText('reading is missing').waitFor();
      await choose('panel;reading\nright rear quarter;108\nroof;4.2', 'utf8');
      await page.getByText('Row 3, reading: 4.2 looks like mil').waitFor();
      await none();
      await choose(
        '\uFEFFpanel\treading\r\n"right rear quarter"\t108,4\r\nright rear quarter\t109\r\n',
        'utf16le',
      );
      await page.getByText('2 readings taken in').waitFor();
      expect((await seen('rrq'))?.readings.map((r) => r.tenthUm)).toEqual([1084, 1090]);
    });

    test('three options of a quote stand side by side, the same work on the same line', async () => {
      const [c, b, a] = await versions();
      const estimateIds = [a?.id, b?.id, c?.id];
      await callFrom(page, 'billing.quoteEstimates', { jobId: job.jobId, estimateIds });
      await show('quote');
      const heads = await Promise.all(
        ['A', 'B', 'C'].map((letter) => page.getByRole('region', { name: `Option ${letter}` }).boundingBox()),
      );
      expect(new Set(heads.map((h) => h?.y)).size).toBe(1);
      for (const [i, head] of heads.entries())
        if (i > 0) expect(head?.x ?? 0).toBeGreaterThan((heads[i - 1]?.x ?? 0) + (heads[i - 1]?.width ?? 0));
      expect(await page.getByText('To pay').locator('xpath=..').getByText(/^€/).count()).toBe(3);
    });

    test('all three screens pass the accessibility rules, in both themes', async () => {
      for (const at of ['inspection', 'estimate', 'quote'])
        for (const theme of ['dark', 'light']) {
          await show(at);
          await page.evaluate((one) => {
            document.documentElement.dataset['theme'] = one;
          }, theme);
          const found = await axeOf(page).analyze();
          expect(found.violations.map((v) => `${at} ${theme} ${v.id}: ${v.nodes[0]?.html}`)).toEqual([]);
        }
    });

    test('nothing scrolls the page itself at 1280 × 800', async () => {
      for (const at of ['inspection', 'estimate']) {
        await show(at);
        const over = await page.evaluate(() => document.documentElement.scrollHeight - window.innerHeight);
        expect(over).toBeLessThanOrEqual(0);
      }
    });
  },
);
