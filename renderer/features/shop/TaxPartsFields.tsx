import type { ReactNode } from 'react';
import { MOST_TAX_PARTS, wholeRatePpm } from '#core/shared/tax.ts';
import { rate } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Check } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row } from '../../ui/Layout.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import css from './shop.module.css';

/** One of several taxes as it is typed. */
export type PartDraft = { readonly name: string; readonly ratePpm: number | null; readonly onTax: boolean };
const EMPTY: PartDraft = { name: '', ratePpm: null, onTax: false };
const PPM_PER_CENT = 10_000;

/** Parts that have all they need. */
export function wholeParts(parts: readonly PartDraft[]): { name: string; ratePpm: number; onTax: boolean }[] {
  return parts.flatMap(({ name, ratePpm, onTax }) =>
    name.trim() === '' || !ratePpm ? [] : [{ name, ratePpm, onTax }],
  );
}

/** Several taxes on one sale, each a row; what they come to together. */
export function TaxPartsFields(props: {
  readonly parts: readonly PartDraft[];
  readonly onChange: (parts: readonly PartDraft[]) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { parts, onChange } = props;
  const whole = wholeParts(parts);
  return (
    <>
      {parts.map((part, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a tax is what stands in its row, and rows only end from below
        <PartFields key={at} at={at} part={part} onChange={(to) => onChange(parts.with(at, to))} />
      ))}
      {whole.length > 1 ? (
        <p className="quiet">
          {t('shop.taxPartsWhole', { rate: amountText(rate(manner, wholeRatePpm(whole))) })}
        </p>
      ) : null}
      <Row>
        {parts.length < MOST_TAX_PARTS ? (
          <LinkButton onPress={() => onChange(parts.length === 0 ? [EMPTY, EMPTY] : [...parts, EMPTY])}>
            {t('shop.taxPartMore')}
          </LinkButton>
        ) : null}
        {parts.length > 0 ? (
          <LinkButton quiet onPress={() => onChange(parts.length === 2 ? [] : parts.slice(0, -1))}>
            {t('shop.taxPartLess')}
          </LinkButton>
        ) : null}
      </Row>
      {parts.length > 0 ? <p className="t1 dusty">{t('shop.taxPartsNote')}</p> : null}
    </>
  );
}

function PartFields(props: {
  readonly at: number;
  readonly part: PartDraft;
  readonly onChange: (part: PartDraft) => void;
}): ReactNode {
  const t = useText();
  const { at, part, onChange } = props;
  return (
    <fieldset className={css['taxPart']}>
      <legend className="unseen">{t('shop.taxPart', { n: at + 1 })}</legend>
      <TextField
        label={t('shop.taxPart', { n: at + 1 })}
        value={part.name}
        maxLength={60}
        onChange={(name) => onChange({ ...part, name })}
      />
      <NumberField
        label={t('shop.taxRate')}
        unit="%"
        digits={4}
        min={0}
        max={100}
        value={part.ratePpm === null ? null : part.ratePpm / PPM_PER_CENT}
        onChange={(typed) =>
          onChange({ ...part, ratePpm: typed === null ? null : Math.round(typed * PPM_PER_CENT) })
        }
      />
      {at === 0 ? null : (
        <Check
          label={t('shop.taxPartOn')}
          value={part.onTax}
          onChange={(onTax) => onChange({ ...part, onTax })}
        />
      )}
    </fieldset>
  );
}
