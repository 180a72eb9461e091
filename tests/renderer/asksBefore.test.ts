import { expect, it } from 'vitest';
import type { BillLine, LineKind } from '#core/shared/bill.ts';
import type { JobId } from '#core/shared/ids.ts';
import type { LocalDay, Minor } from '#core/shared/units.ts';
import type { QuoteView } from '#core/shared/views/billing.ts';
import type { ShopPage } from '#core/shared/views/shop.ts';
import { askedOf, asksBefore, NO_ASKS, offeredOf } from '../../renderer/features/billing/asksBefore.ts';
import { withOneMore } from '../../renderer/features/billing/thingsAsked.ts';
import { testEstimate } from '../helpers/billing.ts';

const line = (what: LineKind, text: string): BillLine => ({
  ...{ what, text, quantity: 1, unit: 'piece', per: 1, priceMinor: 100, discountMinor: 0 },
  tax: { code: 'standard', category: 'S', ratePpm: 190_000, name: 'VAT', reason: '' },
});
const quoted = (...options: readonly (readonly BillLine[])[]) =>
  ({ options: options.map((lines) => ({ bill: { lines } })) }) as unknown as QuoteView;
type Offered = ShopPage['packages'][number];
const pack = (id: string, more: Partial<Offered> = {}): Offered => ({
  ...{ id, name: 'Two steps', wish: 'twoStage', interior: false, protection: 'sealant', bodies: [] },
  ...{ priceMinor: 79_000 as Minor, fromDay: '2026-11-25' as LocalDay, holds: true },
  ...more,
});
const estimate = testEstimate('j' as JobId);
const before = (quote: QuoteView, packages: ShopPage['packages']) =>
  asksBefore(quote, [estimate], offeredOf(packages), 'saloon');

it('a next version begins with the surcharges and the package of the one before', () => {
  const quote = quoted([line('package', 'Two steps'), line('rush', 'Ahead')], [line('afterHours', 'Late')]);
  const asks = before(quote, [pack('p1', { name: 'Other' }), pack('p2')]);
  expect(asks).toEqual({
    rush: true,
    afterHours: true,
    packages: { [estimate.id]: 'p2' },
    byPanel: [],
    things: [],
  });
});

it('begins by the panel where the one before was', () => {
  expect(before(quoted([line('panel', 'Two steps: roof')]), []).byPanel).toEqual([estimate.id]);
});

it('begins without a package that is no longer offered or for other work, and with nothing after plain work', () => {
  const quote = quoted([line('package', 'Two steps')]);
  for (const gone of [
    { holds: false },
    { priceMinor: null },
    { wish: 'clean' as const },
    { bodies: ['van' as const] },
  ])
    expect(before(quote, [pack('p', gone)])).toEqual(NO_ASKS);
  expect(before(quoted([line('labour.cut', 'Cut')]), [pack('p')])).toEqual(NO_ASKS);
});

const thing = (quoted: string, quantity: number, discountMinor = 0): BillLine => ({
  ...line('goods', 'A thing'),
  ...{ quoted, quantity, discountMinor },
});

it('begins with the things of each option as it had them; an estimate that was none takes those of the agreed one', () => {
  const all = ['a', 'b', 'new'].map((id) => ({ ...estimate, id }));
  const quote = {
    options: [
      { letter: 'A', estimateId: 'a', bill: { lines: [thing('t', 1), thing('t', 1)] } },
      { letter: 'B', estimateId: 'b', bill: { lines: [thing('t', 1), thing('s', 3, 50)] } },
    ],
    acceptance: { letter: 'B' },
  } as unknown as QuoteView;
  const ids = all.map((e) => e.id);
  const once = { priceId: 't', pieces: 1, discountMinor: 0 };
  const others = { priceId: 's', pieces: 3, discountMinor: 50 };
  expect(askedOf(asksBefore(quote, all, [], 'saloon'), ids).things).toEqual([
    [once, once],
    [once, others],
    [once, others],
  ]);
});

it('adds one more to the line that is there, and a line of its own for the options that lack the thing', () => {
  const first = withOneMore([], 't', ['a', 'b']);
  expect(first).toMatchObject([{ pieces: 1, notIn: [] }]);
  expect(withOneMore(first, 't', ['a', 'b'])).toMatchObject([{ pieces: 2, notIn: [] }]);
  const onlyA = first.map((one) => ({ ...one, notIn: ['b'] }));
  expect(withOneMore(onlyA, 't', ['a', 'b'])).toMatchObject([
    { pieces: 1, notIn: ['b'] },
    { pieces: 1, notIn: ['a'] },
  ]);
});
