import { describe, expect, it } from 'vitest';
import { RECORD_KINDS, type RecordKind } from '#core/shared/records.ts';
import { en } from '#core/shared/text/en.ts';
import {
  amountAsTyped,
  count,
  film,
  hours,
  hoursMinutes,
  hoursRange,
  length,
  minorToDecimal,
  money,
  moneyPlain,
  range,
  rate,
  volume,
} from '#core/shared/text/format.ts';
import { type Manner, PLAIN_MANNER } from '#core/shared/text/manner.ts';
import { say } from '#core/shared/text/say.ts';
import { panelName, sayError } from '#core/shared/text/sayError.ts';
import {
  clock,
  date,
  dayOf,
  dayTimeFrom,
  exact,
  hourCycleOf,
  hourMark,
  span,
  when,
} from '#core/shared/text/when.ts';
import {
  BODY_STYLES,
  type BodyStyle,
  DEFECTS,
  JOB_STATES,
  LEVELS,
  MATERIALS,
  PANELS,
  STAGE_KINDS,
} from '#core/shared/vocabulary.ts';

const berlin: Manner = { ...PLAIN_MANNER, zone: 'Europe/Berlin' };
/** Wednesday 25 November 2026, 10:00 in Berlin. */
const NOW = Date.UTC(2026, 10, 25, 9);
const HOUR = 3_600_000;

describe('a time beside others', () => {
  it('has its date where its weekday alone would be read as a nearer one', () => {
    expect(dayTimeFrom(berlin, NOW - 2 * HOUR, NOW)).toBe('Wed 08:00');
    expect(dayTimeFrom(berlin, NOW + 6 * 24 * HOUR, NOW)).toBe('Tue 10:00');
    expect(dayTimeFrom(berlin, NOW + 7 * 24 * HOUR, NOW)).toBe('Wed 2 Dec 10:00');
    expect(dayTimeFrom(berlin, NOW - 24 * HOUR, NOW)).toBe('Tue 24 Nov 10:00');
  });
});

describe('money', () => {
  it('shows cents with the sign in front and groups thousands', () => {
    expect(money(berlin, 108_468)).toBe('€1,084.68');
    expect(money(berlin, -46_050)).toBe('−€460.50');
  });
  it('takes the digits of a currency from ISO 4217 where Intl disagrees', () => {
    // ISO 4217 lists HUF with two digits; CLDR shows none.
    expect(money({ ...berlin, currency: 'HUF' }, 12_345)).toContain('123.45');
    expect(money({ ...berlin, currency: 'KWD' }, 12_345)).toContain('12.345');
    expect(money({ ...berlin, currency: 'JPY' }, 12_345)).toContain('12,345');
  });
  it('stays exact at the largest safe amount', () => {
    expect(money({ ...berlin, region: 'en-US', currency: 'USD' }, Number.MAX_SAFE_INTEGER)).toBe(
      '$90,071,992,547,409.91',
    );
    expect(minorToDecimal(5, 2)).toBe('0.05');
  });
  it.each(['en-GB', 'en-DE', 'en-FR', 'en-NL', 'en-SE', 'en-US', 'de-DE', 'en-IN'])(
    'reads like the plain figures of the region, where Intl may know others for money: %s',
    (region) => {
      const manner = { ...berlin, region };
      expect(money(manner, 123_456_789)).toContain(moneyPlain(manner, 123_456_789));
    },
  );
  it('uses the separators of the region', () => {
    expect(money({ ...berlin, region: 'de-AT' }, 108_468)).toMatch(/1[. ]084,68/);
  });
});

describe('figures', () => {
  it('writes hours and minutes that add up as printed, with the marks of the region', () => {
    expect(hoursMinutes(berlin, 39_270)).toBe('654:30');
    expect(hoursMinutes(berlin, 0)).toBe('0:00');
    expect(hoursMinutes({ ...berlin, region: 'de-DE' }, 94_604)).toBe('1.576:44');
    expect(hoursMinutes(PLAIN_MANNER, 94_604)).toBe('1,576:44');
    const parts = [39_269, 7_171, 18_101, 6_001, 24_062];
    const minutes = (text: string): number => {
      const [whole = '', rest = ''] = text.split(':');
      return Number(whole.replace(/\D/g, '')) * 60 + Number(rest);
    };
    const sum = parts.reduce((all, part) => all + part, 0);
    const printed = parts.map((part) => minutes(hoursMinutes(berlin, part)));
    expect(printed.reduce((all, part) => all + part, 0)).toBe(minutes(hoursMinutes(berlin, sum)));
  });

  it('writes minutes as hours with one decimal, half away from zero', () => {
    expect(hours(berlin, 570)).toEqual({ value: '9.5', unit: 'h' });
    expect(hours(berlin, 3).value).toBe('0.1'); // 0.05 h
    expect(hoursRange(berlin, 486, 720)).toBe('8.1–12.0');
  });
  it('says a range with equal ends once', () => {
    expect(range('4', '4')).toBe('4');
  });
  it('converts film at 25.4 µm to the mil', () => {
    // 105.8 µm / 25.4 = 4.1654 mil
    expect(film({ ...berlin, filmUnit: 'mil' }, 1058)).toEqual({ value: '4.17', unit: 'mil' });
    expect(film(berlin, 1058)).toEqual({ value: '105.8', unit: 'µm' });
  });
  it('converts volume at 29.57353 ml to the US fluid ounce', () => {
    // NIST SP 811, appendix B: 1 fl oz (US) = 29.57353 ml; 500 ml = 16.907 fl oz
    expect(volume({ ...berlin, volumeUnit: 'floz' }, 500_000)).toEqual({ value: '16.9', unit: 'fl oz' });
    expect(volume(berlin, 2_500)).toEqual({ value: '2.5', unit: 'ml' });
    const lengths = [16_000, 140, 0].map((mm) => length(berlin, mm));
    expect(lengths.map((l) => `${l.value} ${l.unit}`)).toEqual(['16 m', '140 mm', '0 m']);
  });
  it('says an amount that is to be booked to the last of it', () => {
    const typed = [12_500, 112_500, 11_266_000, 1, -500].map((ul) => amountAsTyped(berlin, 'ul', ul).value);
    expect(typed).toEqual(['12.5', '112.5', '11,266', '0.001', '−0.5']);
    expect(amountAsTyped(berlin, 'piece', 6)).toEqual({ value: '6', unit: '' });
    // 500 ml / 29.5735295625 ml = 16.907 fl oz (NIST SP 811, appendix B)
    expect(amountAsTyped({ ...berlin, volumeUnit: 'floz' }, 'ul', 500_000).value).toBe('16.907');
  });
  it('shows a rate with the decimals it has', () => {
    expect(rate(berlin, 200_000).value).toBe('20');
    expect(rate(berlin, 77_500).value).toBe('7.75');
  });
  it('never writes minus zero', () => {
    expect(count(berlin, -0.2)).toBe('0');
  });
});

describe('times', () => {
  it('says near days by name and far ones by date, with the year where it is another', () => {
    expect(when(berlin, NOW + HOUR, NOW)).toBe('today 11:00');
    expect(when(berlin, NOW + 24 * HOUR, NOW)).toBe('tomorrow 10:00');
    expect(when(berlin, NOW - 24 * HOUR, NOW)).toBe('yesterday 10:00');
    expect(when(berlin, NOW + 72 * HOUR, NOW)).toBe('Sat 10:00');
    // Five days ago and two to come share their weekday: what has passed is told apart by its date.
    expect(when(berlin, NOW - 120 * HOUR, NOW)).toBe('Fri 20 Nov 10:00');
    expect(when(berlin, NOW + 48 * HOUR, NOW)).toBe('Fri 10:00');
    expect(when(berlin, NOW + 9 * 24 * HOUR, NOW)).toBe('Fri 4 Dec 10:00');
    expect(when(berlin, NOW + 90 * 24 * HOUR, NOW)).toBe('Tue 23 Feb 2027 10:00');
  });
  it('goes by the shop’s day, not by the computer’s', () => {
    // 23:30 UTC is already the next day in Berlin.
    expect(when(berlin, Date.UTC(2026, 10, 25, 23, 30), NOW)).toBe('tomorrow 00:30');
  });
  it.each([
    ['en-GB', '09:05', '12 Mar 2027', 'Fri 12 Mar'],
    ['en-US', '9:05 AM', 'Mar 12, 2027', 'Fri Mar 12'],
    ['en-CA', '9:05 a.m.', 'Mar 12, 2027', 'Fri Mar 12'],
    ['en-AU', '9:05 am', '12 Mar 2027', 'Fri 12 Mar'],
    ['en-DE', '09:05', '12 Mar 2027', 'Fri 12 Mar'],
  ])('writes times and dates as %s does, without a stray comma', (region, time, day, weekday) => {
    const there: Manner = { ...PLAIN_MANNER, region, zone: 'America/New_York' };
    const ms = Date.UTC(2027, 2, 12, 14, 5);
    expect(clock(there, ms)).toBe(time.replace(' ', '\u00a0'));
    expect(date(there, '2027-03-12' as never)).toBe(day);
    expect(dayOf(there, ms, ms)).toBe(weekday);
    expect(exact(there, ms)).not.toMatch(/,(?! 2027)/);
    expect(hourCycleOf(region)).toBe(/[ap]\.?m/i.test(time) ? 12 : 24);
  });

  it('has midnight and noon right in both', () => {
    const us: Manner = { ...PLAIN_MANNER, region: 'en-US' };
    const at = (hour: number): number => Date.UTC(2027, 2, 12, hour);
    expect([clock(us, at(0)), clock(us, at(12))]).toEqual(['12:00\u00a0AM', '12:00\u00a0PM']);
    expect([clock(PLAIN_MANNER, at(0)), clock(PLAIN_MANNER, at(12))]).toEqual(['00:00', '12:00']);
    expect([hourMark(us, at(8)), hourMark(us, at(12)), hourMark(PLAIN_MANNER, at(8))]).toEqual([
      '8\u00a0AM',
      '12\u00a0PM',
      '08',
    ]);
    expect(exact(us, at(13))).toBe('Friday March 12, 2027 1:00\u00a0PM UTC');
  });

  it('tells the two readings of a repeated hour apart in the exact form', () => {
    // Clocks go back on 25 October 2026 at 01:00 UTC: 02:30 happens twice.
    const first = exact(berlin, Date.UTC(2026, 9, 25, 0, 30));
    const second = exact(berlin, Date.UTC(2026, 9, 25, 1, 30));
    expect(first).toContain('02:30');
    expect(second).toContain('02:30');
    expect(first).not.toBe(second);
  });
  it('shortens the end of a span on the same day', () => {
    expect(span(berlin, NOW, NOW + HOUR)).toBe('Wed 10:00–11:00');
    expect(span(berlin, NOW, NOW + 24 * HOUR)).toBe('Wed 10:00 – Thu 10:00');
    expect(span(berlin, NOW, NOW + 24 * HOUR, NOW)).toBe('Wed 10:00 – Thu 10:00');
    const later = NOW + 6 * 24 * HOUR;
    expect(span(berlin, later, later + HOUR, NOW)).toBe('Tue 10:00–11:00');
    expect(span(berlin, later, later + 24 * HOUR, NOW)).toBe('Tue 10:00 – Wed 2 Dec 10:00');
    expect(span(berlin, NOW - 24 * HOUR, NOW - 23 * HOUR, NOW)).toBe('Tue 24 Nov 10:00–11:00');
  });
});

describe('words and refusals', () => {
  it('has a word for every value of the vocabulary', () => {
    const groups = {
      panel: PANELS,
      body: BODY_STYLES,
      stage: STAGE_KINDS,
      defect: DEFECTS,
      level: LEVELS,
      material: MATERIALS,
      jobState: JOB_STATES,
    };
    const missing = Object.entries(groups).flatMap(([group, values]) =>
      values.map((value) => `word.${group}.${value}`).filter((key) => !Object.hasOwn(en, key)),
    );
    expect(missing).toEqual([]);
  });
  it('calls the boot lid of a hatch a tailgate', () => {
    expect(panelName('en', 'bl', 'hatch')).toBe('tailgate');
    expect(panelName('en', 'bl', 'saloon')).toBe('boot lid');
  });
  it('writes a figure with a fraction in a refusal as the shop writes figures', () => {
    const data = {
      panel: 'ro',
      body: 'saloon',
      row: 0,
      value: 150,
      against: 115.5,
      unit: 'um',
      why: 'above',
    } as const;
    const said = (manner: Manner): string => sayError('en', { code: 'FILM_FAR_OFF', data }, manner);
    expect(said({ ...berlin, region: 'en-DE' })).toContain('150 µm against 115,5 at most');
    expect(said(berlin)).toContain('150 µm against 115.5 at most');
  });
  it('calls panels in a refusal as they are on that car', () => {
    const data = { stage: 'cut', rule: 'decontaminateBeforeMachine', panels: ['bo', 'bl'] } as const;
    const said = (body: BodyStyle): string =>
      sayError('en', { code: 'STAGE_ORDER', data: { ...data, body } });
    expect(said('hatch')).toContain('bonnet, tailgate.');
    expect(said('saloon')).toContain('bonnet, boot lid.');
    const whale = { row: 3, text: 'whale', panels: ['bo', 'bl'], body: 'hatch' };
    expect(sayError('en', { code: 'READING_PANEL', data: whale })).toContain(
      'They are called: bonnet, tailgate.',
    );
  });
  it('says what happened, what is safe and what to do', () => {
    expect(sayError('en', { code: 'STORAGE', data: { kind: 'full' } })).toBe(
      'The disk is full, so this was not saved. All that was saved before is safe. Free some space, then try again.',
    );
    expect(sayError('en', { code: 'LAST_OWNER', data: { name: 'Ada' } })).toContain('Ada is the only owner.');
  });
  it('every text is readable by the formatter', () => {
    const broken = Object.entries(en).filter(([key, text]) => {
      try {
        say('en', key as keyof typeof en, Object.fromEntries(namesIn(text).map((name) => [name, 1])));
        return false;
      } catch {
        return true;
      }
    });
    expect(broken.map(([key]) => key)).toEqual([]);
  });
});

/** Every name that could stand for a value in a text; too many does no harm. */
function namesIn(text: string): readonly string[] {
  return [...text.matchAll(/\{\s*(\w+)/g)].map((found) => found[1] ?? '');
}

describe('records that refusals name', () => {
  it('have their words in the locale, whatever the code calls them', () => {
    const said = (what: RecordKind): string => sayError('en', { code: 'NOT_FOUND', data: { what, id: 'x' } });
    expect(said('stockItem')).toBe('This stock item is not here any more. Look it up again.');
    for (const kind of RECORD_KINDS) expect(said(kind)).not.toMatch(/[a-z][A-Z]/);
  });
});
