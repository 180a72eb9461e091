import { z } from 'zod';
import { accessNotes, accessSettings } from './settings/access.ts';
import { accountNotes, accountSettings } from './settings/accounts.ts';
import { billingNotes, billingSettings } from './settings/billing.ts';
import { estimateNotes, estimateSettings } from './settings/estimate.ts';
import type { SettingNote } from './settings/note.ts';
import { paintNotes, paintSettings } from './settings/paint.ts';
import { promiseNotes, promiseSettings } from './settings/promises.ts';
import { stockNotes, stockSettings } from './settings/stock.ts';

/**
 * Every rule that the owner may change, grouped, with its default: `shopSettings.parse({})` is the whole set.
 * Only what differs from a default needs to be stored; a key that a later version adds takes its default.
 */
export const shopSettings = z.strictObject({
  paint: paintSettings.prefault({}),
  estimate: estimateSettings.prefault({}),
  promises: promiseSettings.prefault({}),
  stock: stockSettings.prefault({}),
  billing: billingSettings.prefault({}),
  accounts: accountSettings.prefault({}),
  access: accessSettings.prefault({}),
});
export type ShopSettings = z.output<typeof shopSettings>;
export type SettingGroup = keyof ShopSettings;

/** Unit and source of every setting; a setting without its note does not compile. */
export const settingNotes: {
  readonly [G in SettingGroup]: { readonly [K in keyof ShopSettings[G]]: SettingNote };
} = {
  paint: paintNotes,
  estimate: estimateNotes,
  promises: promiseNotes,
  stock: stockNotes,
  billing: billingNotes,
  accounts: accountNotes,
  access: accessNotes,
};

/** The settings as stored in the shop row, completed with defaults. */
export function settingsFrom(stored: string): ShopSettings {
  return shopSettings.parse(JSON.parse(stored));
}

export function defaultSettings(): ShopSettings {
  return shopSettings.parse({});
}
