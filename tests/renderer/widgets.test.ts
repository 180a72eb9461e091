import { describe, expect, it } from 'vitest';
import { PLAIN_MANNER } from '#core/shared/text/manner.ts';
import { spanText } from '../../renderer/features/shop/spanText.ts';
import { csvOf } from '../../renderer/ui/charts/csv.ts';
import { densityOf, seenQuantiles } from '../../renderer/ui/charts/density.ts';
import { actsFitting } from '../../renderer/ui/commandRegistry.ts';
import { lettersOf } from '../../renderer/ui/letters.ts';
import {
  parseAmount,
  parseIn,
  parseMinor,
  parseMinutes,
  parseNumber,
  parseWholes,
} from '../../renderer/ui/parse.ts';
import { matchPath } from '../../renderer/ui/router.ts';
import { timeScale } from '../../renderer/ui/time/scale.ts';
import { wholeHours } from '../../renderer/ui/time/wholeHours.ts';

const METRIC = { volume: 'ml', length: 'm' } as const;
const US = { volume: 'floz', length: 'ft' } as const;

describe('an amount with its unit behind it', () => {
  it.each([
    // A litre bottle in a field of millilitres is a thousand, not one.
    ['11,2 l', 'ul', METRIC, 'en-DE', 11_200],
    ['11.2 l', 'ul', METRIC, 'en-GB', 11_200],
    ['11.2L', 'ul', METRIC, 'en-GB', 11_200],
    ['750', 'ul', METRIC, 'en-GB', 750],
    ['750 ml', 'ul', METRIC, 'en-GB', 750],
    ['75 cl', 'ul', METRIC, 'en-GB', 750],
    ['1.5 kg', 'mg', METRIC, 'en-GB', 1500],
    ['200 g', 'mg', METRIC, 'en-GB', 200],
    ['250 cm', 'mm', METRIC, 'en-GB', 2.5],
    ['12 fl oz', 'ul', US, 'en-US', 12],
    ['12 fl. oz.', 'ul', US, 'en-US', 12],
    ['12 oz', 'ul', US, 'en-US', 12],
    ['1 gal', 'ul', US, 'en-US', 128],
    ['6 in', 'mm', US, 'en-US', 0.5],
    ['24', 'piece', METRIC, 'en-GB', 24],
    ['24 pcs', 'piece', METRIC, 'en-GB', 24],
  ] as const)('%s of %s', (typed, unit, style, region, value) => {
    expect(parseAmount(typed, region, 3, unit, style)).toBeCloseTo(value, 9);
  });

  it.each([
    ['5 kg', 'ul'],
    ['5 bottles', 'ul'],
    ['2 packs', 'piece'],
    ['10 €', 'mg'],
    ['10o', 'mg'],
    ['l', 'ul'],
  ] as const)('%s is no amount of %s', (typed, unit) => {
    expect(parseAmount(typed, 'en-GB', 3, unit, METRIC)).toBeNull();
  });
});

describe('what people type into number fields', () => {
  it('reads money exactly, in the separators of the region', () => {
    expect(parseMinor('1,084.68', 'en-GB', 2)).toBe(108_468);
    expect(parseMinor('1.084,68', 'de-DE', 2)).toBe(108_468);
    expect(parseMinor('€ 0.1', 'en-GB', 2)).toBe(10);
    expect(parseMinor('85 Euro', 'en-GB', 2)).toBe(8500);
    // The letter beside the nought on the keys.
    for (const typed of ['85,5o', '9oo', '1OO']) expect(parseMinor(typed, 'de-DE', 2)).toBeNull();
    expect(parseMinor('1.095,50', 'en-GB', 2)).toBe(109_550);
    expect(parseMinor('1,095.50', 'de-DE', 2)).toBe(109_550);
    expect(parseMinor('1’095.50 CHF', 'en-CH', 2)).toBe(109_550);
    expect(parseMinor('1 095,50 €', 'fr-FR', 2)).toBe(109_550);
    expect(parseMinor('1,23,456.78', 'en-IN', 2)).toBe(12_345_678);
    expect(parseMinor('1,234,567', 'en-GB', 2)).toBe(123_456_700);
    expect(parseMinor('.5', 'en-GB', 2)).toBe(50);
    expect(parseMinor('5.', 'en-GB', 2)).toBe(500);
    expect(parseNumber('62,4 µm', 'en-DE', 1)).toBe(62.4);
    // The micro sign and the Greek letter are typed for each other.
    expect(parseIn('62,4 \u03bcm', 'en-DE', 1, '\u00b5m')).toBe(62.4);
    expect(
      ['12 345 km', '12,345 KM', '12345', '12,345 mi', '999999 abc'].map((t) => parseIn(t, 'en-GB', 0, 'km')),
    ).toEqual([12_345, 12_345, 12_345, null, null]);
    expect(parseMinor('−12.30', 'en-GB', 2)).toBe(-1230);
    expect(parseMinor('90071992547409.91', 'en-GB', 2)).toBe(Number.MAX_SAFE_INTEGER);
  });
  it('refuses more decimals than the currency has, and what is no figure', () => {
    expect(parseMinor('1.005', 'en-GB', 2)).toBeNull();
    expect(parseMinor('12.5', 'en-GB', 0)).toBeNull();
    expect(parseMinor('abc', 'en-GB', 2)).toBeNull();
    expect(parseNumber('1-2', 'en-GB', 0)).toBeNull();
    expect(parseMinor('8 bis 12', 'en-DE', 2)).toBeNull();
    expect(parseMinor('1,2,3', 'en-GB', 2)).toBeNull();
    expect(parseMinor('1,234.5.6', 'en-GB', 2)).toBeNull();
    expect(parseMinor('-', 'en-GB', 2)).toBeNull();
    expect(parseNumber('10 or so', 'en-GB', 0)).toBeNull();
    expect(parseNumber('10 20', 'en-GB', 0)).toBeNull();
    expect(parseNumber('about 10', 'en-GB', 0)).toBeNull();
  });
  it('takes a lone group mark before other than three digits as the decimal mark', () => {
    expect(parseNumber('9,5', 'en-GB', 1)).toBe(9.5);
    expect(parseNumber('48,210', 'en-GB', 0)).toBe(48_210);
  });
  it('reads a list of whole figures, and none of it when one of them is no whole figure', () => {
    expect(parseWholes('7, 14; 30')).toEqual([7, 14, 30]);
    expect(parseWholes('7 14')).toEqual([7, 14]);
    expect(parseWholes('')).toEqual([]);
    for (const bad of ['1.5, 7', '7, x', '-7', '7,,14', '1000000000000000000'])
      expect(parseWholes(bad)).toBeNull();
  });
  it('reads hours as people write them', () => {
    expect(parseMinutes('9.5', 'en-GB')).toBe(570);
    expect(parseMinutes('9:30', 'en-GB')).toBe(570);
    expect(parseMinutes('9h30', 'en-GB')).toBe(570);
    expect(parseMinutes('90 min', 'en-GB')).toBe(90);
    expect(parseMinutes('-1', 'en-GB')).toBeNull();
  });
});

describe('the end of a text field', () => {
  it('is said from a tenth of it on, and what is over is counted, not cut', () => {
    expect(lettersOf('x'.repeat(899), 1000)).toEqual({ is: 'well' });
    expect(lettersOf('x'.repeat(900), 1000)).toEqual({ is: 'near', left: 100 });
    expect(lettersOf('x'.repeat(1000), 1000)).toEqual({ is: 'near', left: 0 });
    expect(lettersOf('x'.repeat(1003), 1000)).toEqual({ is: 'over', by: 3 });
  });
  it('does not count the blanks around a text, which are not saved', () => {
    expect(lettersOf(`${'x'.repeat(1000)}\n\n`, 1000)).toEqual({ is: 'near', left: 0 });
  });
  it('is not said of a short field that is meant to be full, and of no matter without a limit', () => {
    expect(lettersOf('2026', 4)).toEqual({ is: 'well' });
    expect(lettersOf('20266', 4)).toEqual({ is: 'over', by: 1 });
    expect(lettersOf('x'.repeat(9000), undefined)).toEqual({ is: 'well' });
  });
});

describe('a span of absence', () => {
  const manner = { ...PLAIN_MANNER, zone: 'Europe/Vienna', region: 'en-GB' };
  const at = (iso: string): number => Date.parse(iso) / 60_000;
  const now = Date.parse('2026-11-25T09:42:00Z');
  it('is told by its days where it is whole ones, the last of them the one before its end', () => {
    const day = spanText(manner, at('2026-12-02T23:00Z'), at('2026-12-03T23:00Z'), now);
    expect(day).toBe('Thu 3 Dec');
    const days = spanText(manner, at('2026-12-02T23:00Z'), at('2026-12-05T23:00Z'), now);
    expect(days).toBe('Thu 3 Dec – Sat 5 Dec');
  });
  it('is told with its times where it is not', () => {
    const span = spanText(manner, at('2026-12-03T08:00Z'), at('2026-12-03T11:30Z'), now);
    expect(span).toBe('Thu 3 Dec 09:00 – Thu 3 Dec 12:30');
  });
});

describe('paths', () => {
  it('fit a pattern part by part and leave the query out', () => {
    expect(matchPath('/jobs/:jobId/estimate', '/jobs/a1/estimate?x=2')).toEqual({ jobId: 'a1' });
    expect(matchPath('/jobs/:jobId', '/jobs/50%25')).toEqual({ jobId: '50%' });
    expect(matchPath('/jobs/:jobId', '/jobs/50%')).toEqual({ jobId: '50%' });
    expect(matchPath('/jobs/:jobId', '/jobs/a1/estimate')).toBeNull();
  });
});

describe('the time scale', () => {
  const scale = timeScale({
    from: 0,
    to: 2880,
    open: [
      { from: 480, to: 1080 },
      { from: 1920, to: 2520 },
    ],
    closedAs: 100,
  });
  it('presses closed hours together and gives open ones their full width', () => {
    // 100 + 600 + 100 + 600 + 100 = 1500 parts
    expect(scale.at(480)).toBeCloseTo(100 / 1500, 10);
    expect(scale.at(780)).toBeCloseTo(400 / 1500, 10);
    expect(scale.at(1920)).toBeCloseTo(800 / 1500, 10);
    expect(scale.at(9999)).toBe(1);
  });
  it('leads back to the same time from every minute', () => {
    for (let t = 0; t < 2880; t += 7) expect(scale.back(scale.at(t))).toBeCloseTo(t, 6);
  });
});

describe('the hours of a day', () => {
  const at = (text: string): number => Date.parse(`2026-11-25T${text}Z`);
  it('are whole by the clock of the shop, also where its zone lies half an hour beside', () => {
    // India is 5 h 30 min ahead of UTC: 09:00 there is 03:30.
    expect(wholeHours(at('03:10:20'), at('05:30:00'), 'Asia/Kolkata')).toEqual(
      ['03:30:00', '04:30:00', '05:30:00'].map(at),
    );
    expect(wholeHours(at('07:00:00'), at('11:59:00'), 'Europe/Vienna', 2)).toEqual(
      ['07:00:00', '09:00:00', '11:00:00'].map(at),
    );
    expect(wholeHours(at('07:01:00'), at('07:30:00'), 'Europe/Vienna')).toEqual([]);
  });
});

describe('the finishing curve', () => {
  it('has the probability below each quantile that its name says', () => {
    const q = { p50: 600, p80: 720, p95: 900 };
    const density = densityOf(q);
    let whole = 0;
    const below = { p50: 0, p80: 0, p95: 0 };
    for (let x = 0; x < 6000; x += 0.25) {
      const d = density(x);
      whole += d;
      for (const key of ['p50', 'p80', 'p95'] as const) if (x < q[key]) below[key] += d;
    }
    expect(below.p50 / whole).toBeCloseTo(0.5, 2);
    expect(below.p80 / whole).toBeCloseTo(0.8, 2);
    expect(below.p95 / whole).toBeCloseTo(0.95, 2);
  });

  it('can be seen where half are done minutes after an opening and the last a day later', () => {
    const stretch = 5 * 24 * 60;
    const seen = seenQuantiles({ p50: 5900, p80: 5925, p95: 7364 }, stretch);
    const density = densityOf(seen);
    let high = 0;
    for (let x = 0; x < stretch; x += 1) if (density(x) > 0.5) high += 1;
    // Three hundred and forty places across: two of them.
    expect(high / stretch).toBeGreaterThan(2 / 340);
    const wide = { p50: 3000, p80: 3600, p95: 4300 };
    expect(seenQuantiles(wide, stretch)).toEqual(wide);
  });
});

describe('the command bar', () => {
  const acts = [
    { id: 'a', group: 'g', label: 'Take a call', run: () => undefined },
    { id: 'b', group: 'g', label: 'Stock', words: 'shelf', run: () => undefined },
  ];
  it('finds by the beginnings of words, in any order', () => {
    expect(actsFitting([acts], 'call ta').map((act) => act.id)).toEqual(['a']);
    expect(actsFitting([acts], 'she').map((act) => act.id)).toEqual(['b']);
    expect(actsFitting([acts], 'all')).toEqual([]);
  });
});

describe('tables as CSV', () => {
  it('quotes as RFC 4180 says and never hands a spreadsheet a formula', () => {
    const text = csvOf({
      columns: ['name', 'h'],
      rows: [
        ['Oko"ro, Lena', 9.5],
        ['=1+1', -2],
      ],
    });
    expect(text).toBe('\uFEFFname,h\r\n"Oko""ro, Lena",9.5\r\n\'=1+1,-2\r\n');
  });
});
