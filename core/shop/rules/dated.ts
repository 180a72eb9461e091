import { cleanLine, cleanName } from '../../people/rules/names.ts';
import { refuse } from '../../shared/errors.ts';
import type { TaxCategory, TaxPart } from '../../shared/tax.ts';
import { type LocalDay, PPM } from '../../shared/units.ts';

/**
 * The day a price or tax begins: today when not said.
 * @throws DAY_PAST when the day is before today: what was charged then was charged then
 */
export function beginsOn(day: LocalDay | undefined, today: LocalDay): LocalDay {
  const from = day ?? today;
  if (from < today) refuse('DAY_PAST', { day: from, today });
  return from;
}

/**
 * A tax as it may be kept: the taxed category S has a rate above 0, all others 0; whoever charges no tax says why.
 * Several taxes on one sale are told apart by name and rate, and come to no more than the sale.
 * @throws TAX_CATEGORY_RATE, TAX_REASON_MISSING, NAME_MISSING, TAX_PARTS
 * @source EN 16931-1, rules BR-S-05, BR-Z-05, BR-E-05, BR-AE-05 (rates) and BR-E-10, BR-AE-10, BR-O-10 (reason)
 */
export function cleanTax(tax: {
  readonly name: string;
  readonly category: TaxCategory;
  readonly ratePpm: number;
  readonly reason: string;
  readonly parts?: readonly TaxPart[];
}): { readonly name: string; readonly reason: string } {
  if ((tax.category === 'S') !== tax.ratePpm > 0) refuse('TAX_CATEGORY_RATE', { category: tax.category });
  const names = (tax.parts ?? []).map((part) => `${part.name}/${part.ratePpm}`);
  if (new Set(names).size < names.length || tax.ratePpm > PPM) refuse('TAX_PARTS', {});
  const saysWhy = tax.category === 'S' || tax.category === 'Z';
  const reason = saysWhy ? '' : cleanLine(tax.reason);
  if (!saysWhy && reason === '') refuse('TAX_REASON_MISSING', { category: tax.category });
  return { name: cleanName(tax.name, 'tax'), reason };
}
