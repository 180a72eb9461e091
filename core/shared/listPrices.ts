import type { ItemId } from './ids.ts';
import type { TaxCode } from './tax.ts';
import type { LocalDay, Minor } from './units.ts';
import type { PanelPlanView } from './views/estimate.ts';
import type { PanelId } from './vocabulary.ts';

export const LIST_PRICE_KINDS = ['item', 'panel'] as const;
/** What is done to a panel that has a price; a panel that is left alone has none. */
export const PRICED_LEVELS = ['washOnly', 'oneStage', 'twoStage', 'threeStage', 'sanded'] as const;
export type PricedLevel = (typeof PRICED_LEVELS)[number];

/** One dated price: of one thing such as a headlight, or of one panel brought to a level; null = no longer offered. */
export type ListPriceRow = {
  readonly id: string;
  readonly kind: (typeof LIST_PRICE_KINDS)[number];
  readonly name: string;
  readonly level: PricedLevel | '';
  readonly panel: PanelId | '';
  readonly priceMinor: Minor | null;
  readonly tax: TaxCode;
  /** The stock that one of a thing is taken from when it is handed over, `itemQty` base units of it; null = none. */
  readonly itemId: ItemId | null;
  readonly itemQty: number;
  readonly fromDay: LocalDay;
};

/** What rows of one thing have in common. */
export function thingOf({
  kind,
  name,
  level,
  panel,
}: Pick<ListPriceRow, 'kind' | 'name' | 'level' | 'panel'>): string {
  return [kind, name, level, panel].join('/');
}

/** A thing as refusals name it: by what it is called, or by what is done to which panel. */
export type SaidThing = {
  readonly kind: 'item' | 'panel' | 'everyPanel';
  readonly name: string;
  readonly level: string;
  readonly panel: string;
};

export function saidThing({
  kind,
  name,
  level,
  panel,
}: Pick<ListPriceRow, 'kind' | 'name' | 'level' | 'panel'>): SaidThing {
  return { kind: kind === 'panel' && panel === '' ? 'everyPanel' : kind, name, level, panel };
}

export type PricedPanel = {
  readonly panel: PanelId;
  readonly level: PricedLevel;
  /** Null where the list has none: not for the panel, nor for every panel. */
  readonly priceMinor: Minor | null;
};

/** What each panel of a plan costs by the list that holds: its own price, else that of every panel at the level. */
export function pricedPanels(
  panels: readonly Pick<PanelPlanView, 'panel' | 'level'>[],
  list: readonly Pick<ListPriceRow, 'kind' | 'level' | 'panel' | 'priceMinor'>[],
): PricedPanel[] {
  const priceOf = (level: string, panel: string): Minor | null | undefined =>
    list.find((row) => row.kind === 'panel' && row.level === level && row.panel === panel)?.priceMinor;
  return panels.flatMap(({ panel, level }) => {
    const priced = PRICED_LEVELS.find((one) => one === level);
    if (!priced) return [];
    return [{ panel, level: priced, priceMinor: priceOf(priced, panel) ?? priceOf(priced, '') ?? null }];
  });
}

/** What a plan costs by the list; null where a panel has no price, or nothing is done to any. */
export function panelsTotal(priced: readonly PricedPanel[]): number | null {
  if (priced.length === 0 || priced.some((p) => p.priceMinor === null)) return null;
  return priced.reduce((sum, p) => sum + (p.priceMinor ?? 0), 0);
}
