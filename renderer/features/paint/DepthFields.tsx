import { type ReactNode, useState } from 'react';
import { type DepthRange, depthOf, hasDepth } from '#core/shared/depths.ts';
import type { Defect, Severity } from '#core/shared/vocabulary.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { FilmField } from '../../ui/FilmField.tsx';
import css from './paint.module.css';

/** As deep as may be noted at all, 0.1 µm. */
const DEEPEST = 5000;

export type Depth = {
  /** 0.1 µm; null where no depth says anything of the damage. */
  readonly shown: DepthRange | null;
  /** What somebody set; null = the usual range of the word. */
  readonly own: DepthRange | null;
  /** One end; an emptied field is the usual one's. */
  readonly put: (end: keyof DepthRange, tenthUm: number | null) => void;
  readonly back: () => void;
};

/** The depth range of a finding being noted: that of its word, until somebody sets another for this damage. */
export function useDepth(defect: Defect, severity: Severity): Depth {
  const [set, setOwn] = useState<{ readonly of: Defect; readonly range: DepthRange } | null>(null);
  // A range was meant for one kind of damage; another begins with its usual one.
  const own = set?.of === defect && hasDepth(defect) ? set.range : null;
  const usual = depthOf(defect, severity);
  return {
    shown: hasDepth(defect) ? (own ?? usual) : null,
    own,
    put: (end, tenthUm) => setOwn({ of: defect, range: { ...(own ?? usual), [end]: tenthUm ?? usual[end] } }),
    back: () => setOwn(null),
  };
}

/** From and to, in the shop's unit. */
export function DepthFields({ depth }: { readonly depth: Depth }): ReactNode {
  const t = useText();
  const { shown, own, put, back } = depth;
  if (!shown) return null;
  const field = { milDigits: 3, max: DEEPEST };
  return (
    <div className={css['depth']}>
      <FilmField
        {...field}
        label={t('paint.depthFrom')}
        value={shown.low}
        onChange={(low) => put('low', low)}
      />
      <FilmField
        {...field}
        label={t('paint.depthTo')}
        value={shown.high}
        onChange={(high) => put('high', high)}
      />
      <p className="t1 quiet">
        {t(own ? 'paint.depthOwn' : 'paint.depthUsual')}{' '}
        {own ? (
          <LinkButton quiet onPress={back}>
            {t('paint.depthBack')}
          </LinkButton>
        ) : null}
      </p>
    </div>
  );
}
