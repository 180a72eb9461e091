import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { mondayOf } from '#core/figures/rules/monday.ts';
import type { MondayFacts } from '#core/figures/rules/mondayFacts.ts';
import { hoursOver } from '#core/figures/rules/mondayHours.ts';
import { mannerFor, PLAIN_MANNER } from '#core/shared/text/manner.ts';
import { sayMonday } from '#core/shared/text/sayMonday.ts';
import type { EpochMin, LocalDay, Ppm } from '#core/shared/units.ts';
import { MONDAY_KINDS } from '#core/shared/views/monday.ts';
import { agreedJob } from '../../helpers/billing.ts';
import { pdfText } from '../../helpers/pdfText.ts';
import { openTestShop, type TestShop } from '../../helpers/shop.ts';

const TODAY = '2026-11-23' as LocalDay;
const ppm = (share: number): Ppm => (share * 1_000_000) as Ppm;
const stake = (jobNumber: number, worthMinor: number) => ({
  ...{ jobId: `job${jobNumber}`, jobNumber, customer: 'Marit Vane', worthMinor },
});
const NOTHING: MondayFacts = {
  today: TODAY,
  currency: 'EUR',
  promises: [],
  padsToWash: [],
  stockStops: [],
  overdue: [],
  toBill: [],
  quotes: [],
  accepted: { ppm: ppm(0.5), of: 0 },
  idle: { freeMin: 0, wantedMin: 0, requests: [], perBayHourMinor: 0 },
  drift: [],
};
const invoice = (number: number, owedMinor: number) => ({
  ...{ invoiceId: `i${number}`, number, customer: 'Ana Brisk', owedMinor, overdueDays: 9 },
});

describe('the Monday page', () => {
  it('is empty, and says what it looked at, where nothing asks for a hand', () => {
    expect(mondayOf(NOTHING)).toMatchObject({ things: [], others: [], clear: MONDAY_KINDS });
  });

  it('saves of a promise what its way out adds to the chance, times what the job is worth', () => {
    const risk = {
      ...stake(7, 100_000),
      pickUpMin: 29_700_000 as EpochMin,
      remedy: 'time' as const,
      stands: 'open' as const,
    };
    const [thing] = mondayOf({
      ...NOTHING,
      promises: [
        { ...risk, nowPpm: ppm(0.4), bestPpm: ppm(0.9) },
        // No way out on the board: all that is not sure hangs on ringing the customer.
        { ...risk, ...stake(8, 40_000), remedy: null, nowPpm: ppm(0.25), bestPpm: null },
      ],
    }).things;
    // 1,000.00 · (0.9 − 0.4) + 400.00 · (1 − 0.25)
    expect(thing).toMatchObject({ kind: 'promises', savedMinor: 80_000, promises: 2, moreCases: 0 });
    expect(thing?.cases.map((c) => c.said.key)).toEqual(['promises.time', 'promises.call']);
    // A promise may lie weeks ahead, and the page is printed: its time is said with its date.
    const [first] = thing?.cases ?? [];
    expect(first && sayMonday(PLAIN_MANNER, first.said)).toContain(', Sun 21 Jun 00:00: 40\u00a0% sure');
  });

  it('counts a job that lacks two things once', () => {
    const item = { itemId: 'a', packs: 2, supplier: 'Fenwick Supply', day: TODAY };
    const [thing] = mondayOf({
      ...NOTHING,
      stockStops: [
        { ...item, itemName: 'Compound', stopped: [stake(7, 90_000), stake(8, 30_000)] },
        { ...item, itemId: 'b', itemName: 'Polish', stopped: [stake(7, 90_000)] },
      ],
    }).things;
    expect(thing).toMatchObject({ savedMinor: 120_000, promises: 2 });
    expect(thing?.said.values).toEqual({ items: 2, jobs: 2 });
  });

  it('weighs quotes by how many were agreed to, free bays by what fills them, drift by the hours booked ahead', () => {
    const page = mondayOf({
      ...NOTHING,
      quotes: [{ ...stake(3, 50_000), validUntilDay: TODAY, lapsed: false }],
      accepted: { ppm: ppm(0.6), of: 20 },
      idle: {
        freeMin: 600,
        wantedMin: 240,
        requests: [{ ...stake(4, 0), minutes: 240 }],
        perBayHourMinor: 5000,
      },
      drift: [
        { stage: 'cut', stages: 12, driftPpm: ppm(1.25), aheadMin: 480, perHourMinor: 6000 },
        // Too few, and within a tenth: neither is told.
        { stage: 'wash', stages: 9, driftPpm: ppm(2), aheadMin: 480, perHourMinor: 6000 },
        { stage: 'refine', stages: 50, driftPpm: ppm(1.09), aheadMin: 480, perHourMinor: 6000 },
      ],
    });
    // 500.00 · 60 % · 4 h at 50.00 · 480 min · 25 % = 2 h at 60.00
    expect(page.things.map((t) => [t.kind, t.savedMinor])).toEqual([
      ['quotesLapse', 30_000],
      ['idleBays', 20_000],
      ['drift', 12_000],
    ]);
    expect(hoursOver({ aheadMin: 480, driftPpm: ppm(1.25) })).toBe(120);
    expect(page.things[2]?.cases).toHaveLength(1);
  });

  it('has at most five things, the most worth first, and loses none of the rest', () => {
    const worth = fc.integer({ min: 0, max: 1_000_000 });
    fc.assert(
      fc.property(fc.tuple(worth, worth, worth, worth, worth, worth, worth), (w) => {
        const page = mondayOf({
          ...NOTHING,
          promises: [
            {
              ...stake(1, w[0]),
              stands: 'open',
              pickUpMin: 1 as EpochMin,
              remedy: null,
              nowPpm: ppm(0),
              bestPpm: null,
            },
          ],
          padsToWash: [{ ...stake(2, w[1]), itemName: 'Pad', day: TODAY, lacking: 2 }],
          overdue: [invoice(1, w[2])],
          toBill: [stake(4, w[3])],
          quotes: [{ ...stake(5, w[4]), validUntilDay: TODAY, lapsed: true }],
          accepted: { ppm: ppm(1), of: 1 },
          idle: {
            freeMin: 60,
            wantedMin: 60,
            requests: [{ ...stake(6, 1), minutes: 60 }],
            perBayHourMinor: w[5],
          },
          drift: [{ stage: 'cut', stages: 10, driftPpm: ppm(2), aheadMin: 60, perHourMinor: w[6] }],
        });
        const saved = page.things.map((t) => t.savedMinor);
        expect(saved).toEqual([...saved].sort((a, b) => b - a));
        expect(page.things.length).toBeLessThanOrEqual(5);
        for (const other of page.others) expect(other.savedMinor).toBeLessThanOrEqual(saved.at(-1) ?? 0);
        const told = [...page.things, ...page.others].map((t) => t.kind);
        expect([...told, ...page.clear].sort()).toEqual([...MONDAY_KINDS].sort());
      }),
      { numRuns: 60 },
    );
  });

  it('tells nothing as all right that is there and whose worth nobody knows', () => {
    const quotes = [{ ...stake(5, 40_000), validUntilDay: TODAY, lapsed: false }];
    const requests = [{ ...stake(6, 1), minutes: 60 }];
    const idle = { freeMin: 60, wantedMin: 60, requests, perBayHourMinor: 0 };
    const page = mondayOf({ ...NOTHING, quotes, accepted: { ppm: ppm(0), of: 3 }, idle });
    expect(page.things).toEqual([]);
    expect(page.others.map((o) => [o.kind, o.savedMinor])).toEqual([
      ['quotesLapse', 0],
      ['idleBays', 0],
    ]);
    expect(page.clear).toEqual(MONDAY_KINDS.filter((k) => k !== 'quotesLapse' && k !== 'idleBays'));
    // Where no bay is free there is nothing to fill, whoever waits.
    expect(mondayOf({ ...NOTHING, idle: { ...idle, freeMin: 0 } }).clear).toContain('idleBays');
  });

  it('shows the three cases that weigh most and counts the others', () => {
    const [thing] = mondayOf({ ...NOTHING, overdue: [1, 2, 3, 4, 5].map((n) => invoice(n, n * 100)) }).things;
    expect(thing).toMatchObject({ savedMinor: 1500, moreCases: 2 });
    expect(thing?.cases.map((c) => c.to)).toEqual(['/money/i5', '/money/i4', '/money/i3']);
  });
});

describe('the Monday page of a shop', () => {
  let shop: TestShop;
  beforeEach(() => {
    shop = openTestShop();
  });
  afterEach(() => shop.close());

  it('begins with what is worth most, in words, and prints the same on one page', async () => {
    const { jobId } = agreedJob(shop);
    const { invoiceId } = shop.write('billing.draftInvoice', { jobId });
    shop.write('billing.issueInvoice', { invoiceId, revision: 1, aheadOfWork: true });
    shop.at(Date.parse('2027-01-04T09:00Z'));
    const page = await shop.read('figures.monday', {});
    const owed = await shop.read('billing.readDesk', {});
    expect(page.things[0]).toMatchObject({
      kind: 'overdue',
      savedMinor: owed.ageing.owedMinor,
      cases: [{ to: `/money/${invoiceId}` }],
    });
    const manner = mannerFor({
      ...{ zone: 'Europe/Berlin', currency: 'EUR', locale: 'en' },
      ...{ filmUnit: 'um', volumeUnit: 'ml', lengthUnit: 'm' },
    });
    const pages = await pdfText((await shop.read('figures.mondayFile', {})).bytes);
    expect(pages).toHaveLength(1);
    const bare = (text: string): string => text.replaceAll(/\s+/g, '');
    for (const one of page.things.flatMap((thing) => [
      thing.said,
      thing.why,
      ...thing.cases.map((c) => c.said),
    ]))
      expect(bare(pages[0] ?? '')).toContain(bare(sayMonday(manner, one)));
  });

  it('of an empty shop asks for nothing', async () => {
    expect(await shop.read('figures.monday', {})).toMatchObject({ things: [] });
  });
});
