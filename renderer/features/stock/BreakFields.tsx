import type { ReactNode } from 'react';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { MoneyField, NumberField } from '../../ui/NumberFields.tsx';
import css from './stock.module.css';

/** A price from so many packs on, as it is being typed. */
export type BreakDraft = { readonly fromPacks: number | null; readonly priceMinor: number | null };

/** The breaks that are typed whole, fewest packs first. */
export function breaksOf(drafts: readonly BreakDraft[]): { fromPacks: number; priceMinor: number }[] {
  return drafts
    .flatMap(({ fromPacks, priceMinor }) =>
      fromPacks === null || priceMinor === null ? [] : [{ fromPacks, priceMinor }],
    )
    .sort((a, b) => a.fromPacks - b.fromPacks);
}

/** Prices that fall with the number of packs. */
export function BreakFields(props: {
  readonly breaks: readonly BreakDraft[];
  readonly onChange: (breaks: readonly BreakDraft[]) => void;
}): ReactNode {
  const t = useText();
  const { breaks, onChange } = props;
  const put = (at: number, part: Partial<BreakDraft>): void =>
    onChange(breaks.map((b, i) => (i === at ? { ...b, ...part } : b)));
  return (
    <>
      {breaks.map((b, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: lines are only added and removed at the end
        <div key={i} className={css['break']}>
          <NumberField
            label={t('stock.ui.breakFrom')}
            value={b.fromPacks}
            onChange={(fromPacks) => put(i, { fromPacks })}
            min={2}
          />
          <MoneyField
            label={t('stock.ui.breakPrice')}
            value={b.priceMinor}
            onChange={(priceMinor) => put(i, { priceMinor })}
            min={0}
          />
        </div>
      ))}
      <span className={css['acts']}>
        <LinkButton quiet onPress={() => onChange([...breaks, { fromPacks: null, priceMinor: null }])}>
          {t('stock.ui.addBreak')}
        </LinkButton>
        {breaks.length > 0 ? (
          <LinkButton quiet onPress={() => onChange(breaks.slice(0, -1))}>
            {t('stock.ui.dropBreak')}
          </LinkButton>
        ) : null}
      </span>
    </>
  );
}
