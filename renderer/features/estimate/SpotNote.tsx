import type { ReactNode } from 'react';
import { count } from '#core/shared/text/format.ts';
import { spotMoves } from '#core/shared/text/stageMoves.ts';
import type { EstimateView } from '#core/shared/views/estimate.ts';
import { useManner, useText } from '../../bridge/texts.tsx';

/** Which stages a test spot made longer or shorter, by how much, and why stages move that nobody tried. */
export function SpotNote(props: { readonly versions: readonly EstimateView[] }): ReactNode {
  const t = useText();
  const manner = useManner();
  const [newest, before] = props.versions;
  const others = newest?.factors.find((f) => f.what === 'testSpot' && f.of === '');
  if (!newest || !others) return null;
  const moves = before ? spotMoves(manner, before, newest, 'all') : [];
  return (
    <p className="t1 quiet">
      {moves.length > 0 ? `${t('estimate.spotMoved', { stages: moves.join(', ') })} ` : null}
      {t('estimate.spotOthers', { factor: count(manner, others.factor, 2) })}
    </p>
  );
}
