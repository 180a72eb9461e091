import { describe, expect, it } from 'vitest';
import { countries, currencies, writingTags } from '#core/shared/places.ts';
import { inOrder } from '#core/shared/text/inOrder.ts';
import { PLAIN_MANNER } from '#core/shared/text/manner.ts';
import { say as sayText } from '#core/shared/text/say.ts';
import type { BackupView } from '#core/shared/views/host.ts';
import type { Say } from '../../renderer/bridge/texts.tsx';
import { copyDays } from '../../renderer/features/shop/copyDays.ts';
import type { Draft } from '../../renderer/features/shop/draft.ts';
import { faultsIn, stepOfRefusal } from '../../renderer/features/shop/setUpFaults.ts';
import { inputOf, sentenceOf } from '../../renderer/features/shop/steps.ts';
import { likeMonday, readSpans, spansText, withDay } from '../../renderer/features/shop/week.ts';

describe('hours of a day as people type them', () => {
  it.each([
    ['08:00–17:00', '08:00–17:00'],
    ['8-12, 13-17:30', '08:00–12:00, 13:00–17:30'],
    ['1pm-5 pm, 8am to 12', '08:00–12:00, 13:00–17:00'],
    ['22-24', '22:00–24:00'],
    ['', ''],
    ['–', ''],
  ])('%s is read as %s', (typed, said) => {
    expect(spansText(readSpans(typed) ?? [])).toBe(said);
    expect(readSpans(typed)).not.toBeNull();
  });

  it('is written in halves of the day where the region says so, and read again', () => {
    const day = readSpans('7:30-12, 12:30-17, 22-24') ?? [];
    expect(spansText(day, 12)).toBe('7:30am–12pm, 12:30pm–5pm, 10pm–12am');
    expect(readSpans(spansText(day, 12))).toEqual(day);
  });

  it.each(['early', '17-8', '8-12, 11-14', '8', '25-26', '8:75-9', '13pm-14', '8-9-10'])(
    '%s cannot be read',
    (typed) => expect(readSpans(typed)).toBeNull(),
  );

  it('Tuesday to Friday become as Monday, Saturday stays', () => {
    const saturday = { weekday: 6, startMin: 540, endMin: 780 };
    const week = likeMonday(withDay([saturday], 1, [{ startMin: 480, endMin: 1020 }]));
    expect(week.map((w) => [w.weekday, w.startMin, w.endMin])).toEqual([
      ...[1, 2, 3, 4, 5].map((day) => [day, 480, 1020]),
      [6, 540, 780],
    ]);
  });
});

describe('the last days and their copies', () => {
  it('a day without one is missed only after the first copy and before today, in the shop’s own zone', () => {
    const at = (text: string): BackupView => ({
      ...{ fileName: text, bytes: 1, reason: 'daily' },
      atMs: Date.parse(text) as BackupView['atMs'],
    });
    // 23:30 UTC on the 21st is the 22nd in Vienna (UTC+1 in November).
    const copies = [at('2026-11-24T05:00Z'), at('2026-11-21T23:30Z')];
    const days = copyDays(copies, Date.parse('2026-11-25T09:00Z'), 'Europe/Vienna', 5);
    expect(days.map((d) => [d.day, d.state])).toEqual([
      ['2026-11-21', 'before'],
      ['2026-11-22', 'copied'],
      ['2026-11-23', 'missed'],
      ['2026-11-24', 'copied'],
      ['2026-11-25', 'before'],
    ]);
  });
});

const say: Say = (key, values) => sayText('en', key, values);
const WEEK = [{ weekday: 1, startMin: 480, endMin: 1020 }];
const DRAFT: Draft = {
  ...{ name: 'Lichtschliff', address: '', phone: '', email: '', taxNumber: '', country: 'AT' },
  ...{ zone: 'Europe/Vienna', currency: 'EUR', locale: 'en-AT', filmUnit: 'um', volumeUnit: 'ml' },
  ...{
    lengthUnit: 'm',
    paper: 'A4',
    owner: 'Änne Schröder',
    pin: '',
    pinAgain: '',
    people: [],
    bays: [],
    unread: {},
  },
  ...{ shopWeek: WEEK, deskWeek: WEEK, hourMinor: null, pricesIncludeTax: true },
  ...{ taxName: '', taxCategory: 'S', taxPpm: null, taxReason: '' },
};

describe('what keeps a shop from being set up', () => {
  const faults = (part: Partial<Draft>): string[] =>
    faultsIn({ ...DRAFT, ...part }, say).map((fault) => `${fault.step}: ${fault.says}`);

  it('nothing does in a shop with a name and an owner, and rows without a name are left out', () => {
    const people = [{ name: '  ', role: 'technician' } as const];
    expect(faults({ people })).toEqual([]);
    expect(inputOf({ ...DRAFT, people }, 'x').people).toEqual([]);
    expect(sentenceOf('people', { ...DRAFT, people }, { ...PLAIN_MANNER }, say)).toBe('Änne Schröder');
  });

  it.each<[string, Partial<Draft>, string]>([
    ['no name', { name: ' ' }, 'shop: The shop needs a name.'],
    ['no owner', { owner: '' }, 'people: Say who the owner is.'],
    ['a short PIN', { pin: '47', pinAgain: '47' }, 'people: A PIN is 4 to 12 digits.'],
    ['a PIN typed two ways', { pin: '4711', pinAgain: '4712' }, 'people: The two PINs are not the same.'],
    [
      'a name twice',
      { people: [{ name: 'änne schröder ', role: 'desk' }] },
      'people: Two people are called änne schröder: add an initial.',
    ],
    [
      'hours that can’t be read',
      { unread: { '3 desk': '8 bis 12' } },
      'hours: Some opening hours can’t be read.',
    ],
    [
      'own hours that can’t be read',
      { ownerWork: { skills: [], speedPpm: 1, shifts: WEEK }, unread: { '1 Änne Schröder': 'x' } },
      'work: Some own hours can’t be read.',
    ],
    ['a tax without a rate', { taxName: 'VAT' }, 'tax: Give its rate first.'],
  ])('%s does, on its step', (_, part, said) => expect(faults(part)).toEqual([said]));

  it('own hours of somebody who has none any more do not', () => {
    expect(faults({ unread: { '1 Wren': 'x' } })).toEqual([]);
  });

  it('a refusal is shown on the step that it is about', () => {
    expect(
      stepOfRefusal({ code: 'BAD_INPUT', data: { field: 'people.1.name', problem: 'empty' } } as never),
    ).toBe('people');
    expect(stepOfRefusal({ code: 'EMAIL_UNREADABLE', data: { email: 'x' } })).toBe('shop');
    expect(stepOfRefusal({ code: 'STORAGE', data: { kind: 'full' } })).toBeUndefined();
  });
});

describe('places to choose from', () => {
  it('are countries by name, currencies of the standard’s list, and ways of writing that differ by country', () => {
    const named = countries('en');
    expect(named.find((c) => c.code === 'AT')?.name).toBe('Austria');
    expect(named.length).toBeGreaterThan(240);
    expect(named.map((c) => c.code)).not.toContain('EU');
    expect(currencies('en').find((c) => c.code === 'CHF')?.name).toBe('Swiss Franc');
    expect(writingTags('en', 'PT', 'en-GB').slice(0, 2)).toEqual(['en-GB', 'en-PT']);
    // A shop in the United States reads words of its own region: only the language is taken from them.
    expect(writingTags('en-US', 'US', 'en-US')[0]).toBe('en-US');
    expect(writingTags('en-US', 'PT', 'en-US').slice(0, 2)).toEqual(['en-US', 'en-PT']);
    for (const tag of writingTags('en-US', 'US', 'en-US')) expect(() => new Intl.Locale(tag)).not.toThrow();
  });

  it('are in the region’s order of letters, not the computer’s', () => {
    const names = ['Zoë', 'Änne', 'Łucja', 'Anna', 'Max'].map((name) => ({ name }));
    expect(inOrder('en-DE', names).map((row) => row.name)).toEqual(['Anna', 'Änne', 'Łucja', 'Max', 'Zoë']);
  });
});
