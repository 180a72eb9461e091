import { type ReactNode, useMemo } from 'react';
import { countries, currencies, writingTags } from '#core/shared/places.ts';
import { money } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import { clock, date } from '#core/shared/text/when.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Select } from '../../ui/Select.tsx';

type Choice = {
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly off?: string | undefined;
};

/** A country by its name; one that is not in the list keeps its code. */
export function CountrySelect(props: Choice & { readonly label: string }): ReactNode {
  const { locale } = useManner();
  const all = useMemo(() => countries(locale), [locale]);
  return <Select {...props} options={all.map((c) => ({ value: c.code, label: c.name }))} />;
}

/** A currency by its name. */
export function CurrencySelect(props: Choice): ReactNode {
  const t = useText();
  const { locale } = useManner();
  const all = useMemo(() => currencies(locale), [locale]);
  return (
    <Select
      {...props}
      label={t('shop.currency')}
      options={all.map((c) => ({ value: c.code, label: c.name, note: c.code }))}
    />
  );
}

const EXAMPLE_MINOR = 123_450;
const EXAMPLE_DAY = '2027-03-25' as LocalDay;
const EXAMPLE_MS = Date.UTC(2027, 2, 25, 14, 30);

/** Figures, a date and a time as a region writes them: `1.234,50 € · 25 Mar 2027 · 14:30`. */
function example(manner: Manner): string {
  const there = { ...manner, zone: 'UTC' };
  return [money(there, EXAMPLE_MINOR), date(there, EXAMPLE_DAY), clock(there, EXAMPLE_MS)].join(' · ');
}

/** How dates and figures are written, chosen by what they look like. */
export function WritingSelect(
  props: Choice & { readonly country: string; readonly currency: string },
): ReactNode {
  const t = useText();
  const manner = useManner();
  const { country, currency, ...choice } = props;
  const names = new Intl.DisplayNames([manner.locale], { type: 'language' });
  const options = writingTags(manner.locale, country, choice.value).map((tag) => ({
    value: tag,
    label: example({ ...manner, currency, region: tag }),
    note: names.of(tag),
  }));
  return <Select {...choice} label={t('shop.locale')} options={options} />;
}
