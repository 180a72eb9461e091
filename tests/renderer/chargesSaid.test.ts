import { expect, test } from 'vitest';
import { say } from '#core/shared/text/say.ts';
import type { ChargeKind, ShopPage } from '#core/shared/views/shop.ts';
import { chargesSaid } from '../../renderer/features/shop/chargesSaid.ts';

const charge = (kind: ChargeKind, amountMinor: number, sharePpm: number, holds = true) => ({
  ...{ id: kind, kind, amountMinor, sharePpm, holds, fromDay: '2026-11-25' },
});
const pack = (holds: boolean, priceMinor: number | null) => ({ holds, priceMinor });
const said = (packages: readonly object[], charges: readonly object[]) =>
  chargesSaid({ packages, charges } as unknown as ShopPage, (key, values) => say('en', key, values));

test('packages and charges are named where they hold, and no others', () => {
  expect(said([], [])).toBe('none set yet');
  expect(said([pack(true, 30_000), pack(true, null), pack(false, 20_000)], [])).toBe('one package');
  const none = [charge('rush', 0, 0), charge('minimum', 9000, 0, false)];
  expect(said([], none)).toBe('none set yet');
  const set = [charge('rush', 0, 250_000), charge('minimum', 9000, 0)];
  expect(said([pack(true, 1), pack(true, 2)], set)).toBe('2 packages, minimum charge, rush');
});
