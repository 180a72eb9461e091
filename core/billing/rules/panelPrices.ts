import type { BillLine, LineTax } from '#core/shared/bill.ts';
import { refuse } from '#core/shared/errors.ts';
import type { PricedLevel, PricedPanel } from '#core/shared/listPrices.ts';
import type { Minor } from '#core/shared/units.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import { agreedLine } from './quoteLines.ts';

/** Panels that cost the same at one level. */
export type PanelGroup = {
  readonly level: PricedLevel;
  readonly priceMinor: Minor;
  readonly panels: readonly PanelId[];
};

/**
 * Lines of work priced by the panel: one for each level and price, which stands for all that is done to the panels and
 * what it takes.
 * @throws PANEL_UNPRICED when the list has no price for a panel · NOTHING_TO_BILL when no panel is worked on
 */
export function panelLines(
  priced: readonly PricedPanel[],
  tax: LineTax,
  textOf: (group: PanelGroup) => string,
): BillLine[] {
  if (priced.length === 0) refuse('NOTHING_TO_BILL', {});
  const groups = new Map<string, PanelGroup>();
  for (const { panel, level, priceMinor } of priced) {
    if (priceMinor === null) return refuse('PANEL_UNPRICED', { panel, level });
    const key = `${level}/${priceMinor}`;
    const known = groups.get(key)?.panels ?? [];
    groups.set(key, { level, priceMinor, panels: [...known, panel] });
  }
  return [...groups.values()].map((group) => {
    const amount = (group.priceMinor * group.panels.length) as Minor;
    return agreedLine('panel', textOf(group), 0, amount, tax);
  });
}
