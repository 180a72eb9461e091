import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findChromium, launchChromium } from '../helpers/chromium.ts';
import { NARROW, narrowFaults } from '../helpers/narrow.ts';

const choice = findChromium();
const ROWS = '<li style="height:40px">row</li>'.repeat(10);

/** The check of narrow windows finds each fault that it is there for. */
describe.skipIf(choice === null)('a narrow window', () => {
  let browser: Browser;
  let page: Page;
  beforeAll(async () => {
    if (!choice) return;
    browser = await launchChromium(choice);
    page = await browser.newPage({ viewport: NARROW });
  });
  afterAll(() => browser?.close());

  async function faultsOf(inside: string): Promise<string> {
    await page.setContent(`<body style="margin:0"><main style="overflow:auto">${inside}</main></body>`);
    return (await narrowFaults(page)).join('; ');
  }

  it('is fine with parts below one another and lists at full height', async () => {
    expect(await faultsOf(`<section><ul>${ROWS}</ul></section><section>next</section>`)).toBe('');
  });

  it.each([
    ['is wider than the window', '<section style="width:900px">wide</section>', /MAIN is 900 px wide/],
    [
      'lays a part over another',
      '<section style="height:80px">a</section><section aria-label="Documents" style="margin-top:-40px">b</section>',
      /Documents lies over the part before it/,
    ],
    [
      'hides a list',
      `<section><div style="height:0;overflow:hidden"><ul aria-label="Documents">${ROWS}</ul></div></section>`,
      /Documents is hidden/,
    ],
    [
      'squeezes a list',
      `<section><div style="height:30px;overflow:auto"><ul aria-label="Documents">${ROWS}</ul></div></section>`,
      /Documents shows 30 px of 4\d\d/,
    ],
    [
      'cuts a fact',
      '<dl><div data-fact="promise" style="width:20px;white-space:nowrap;overflow:hidden">tomorrow 08:00</div></dl>',
      /promise runs out of its place/,
    ],
  ])('is found out when it %s', async (_, inside, fault) => {
    expect(await faultsOf(inside)).toMatch(fault);
  });
});
