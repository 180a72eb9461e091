import { PAPER_LANGUAGES } from '#core/shared/languages.ts';
import { DEPOSIT_FORMS, QUOTE_BASES, VOUCHER_PURPOSES } from '#core/shared/settings/billing.ts';
import { PRICE_RULES } from '#core/shared/settings/estimate.ts';
import type { SettingNote, SettingUnit } from '#core/shared/settings/note.ts';
import { COSTING } from '#core/shared/settings/stock.ts';
import { count, moneyPlain } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import { isTextKey } from '#core/shared/text/say.ts';
import type { Say } from '../../bridge/texts.tsx';

export type RuleValue = number | string | boolean | readonly number[] | null;

/** What the values of a choice may be, by the rule's name. */
const CHOICES: Readonly<Record<string, readonly string[]>> = {
  'estimate.priceRule': PRICE_RULES,
  'stock.costing': COSTING,
  'billing.depositForm': DEPOSIT_FORMS,
  'billing.quoteBasis': QUOTE_BASES,
  'billing.paperLanguage': PAPER_LANGUAGES,
  'billing.voucherPurpose': VOUCHER_PURPOSES,
};

type Scale = { readonly unit: string; readonly by: number; readonly digits: number };

/** How a stored figure is shown and typed: its unit, how much of it is one shown, and the digits. */
export function scaleOf(unit: SettingUnit, filmUnit: 'um' | 'mil'): Scale {
  switch (unit) {
    case 'filmTenthUm':
      return filmUnit === 'mil' ? { unit: 'mil', by: 254, digits: 2 } : { unit: 'µm', by: 10, digits: 1 };
    case 'mm':
      return { unit: 'mm', by: 1, digits: 0 };
    case 'mmPerSecond':
      return { unit: 'mm/s', by: 1, digits: 0 };
    case 'seconds':
      return { unit: 's', by: 1, digits: 0 };
    case 'minutes':
      return { unit: 'min', by: 1, digits: 0 };
    case 'ul':
      return { unit: 'ml', by: 1000, digits: 3 };
    case 'ppm':
      return { unit: '%', by: 10_000, digits: 4 };
    default:
      return { unit: '', by: 1, digits: 0 };
  }
}

/** The name of a rule: its own text, or its bare name where there is none yet. */
export function ruleName(setting: string, t: Say): string {
  const key = `setting.${setting}`;
  return isTextKey(key) ? t(key) : setting;
}

/** The values of a choice with their words; of one that is not known, the value alone. */
export function choicesOf(
  setting: string,
  value: string,
  t: Say,
): readonly { readonly value: string; readonly label: string }[] {
  return (CHOICES[setting] ?? [value]).map((v) => {
    const key = `setting.choice.${v}`;
    return { value: v, label: isTextKey(key) ? t(key) : v };
  });
}

/** A rule's value as people read it. */
export function ruleText(
  setting: string,
  note: SettingNote,
  value: RuleValue,
  t: Say,
  manner: Manner,
): string {
  if (value === null) return '';
  if (typeof value === 'boolean') return t(value ? 'shop.yes' : 'shop.no');
  if (typeof value === 'string')
    return choicesOf(setting, value, t).find((c) => c.value === value)?.label ?? value;
  if (typeof value !== 'number') return value.join(', ');
  if (note.unit === 'minor') return moneyPlain(manner, value);
  const { unit, by, digits } = scaleOf(note.unit, manner.filmUnit);
  return `${count(manner, value / by, digits)} ${unit}`.trim();
}
