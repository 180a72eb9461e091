import type { ReactNode } from 'react';
import type { BayId } from '#core/shared/ids.ts';
import type { LaneView } from '#core/shared/views/bays.ts';
import { useText } from '../../bridge/texts.tsx';
import { Block } from '../../ui/time/Time.tsx';
import type { BoardProps } from './boardProps.ts';
import { type Hand, shownOf, useHeld } from './hand.ts';
import held from './held.module.css';
import { type Outline, outlinesIn } from './landing.ts';
import type { Grab } from './useGrab.ts';

type GhostProps = Pick<BoardProps, 'scale'> & { readonly lane: LaneView; readonly height: number };

/** Where the offer that is looked at would stand; where the car stands already its own name is read. */
export function OfferGhosts(props: GhostProps & Pick<BoardProps, 'offer' | 'board'>): ReactNode {
  const { offer, board, lane, scale, height } = props;
  return offer?.plan.stays
    .filter((s) => s.bayId === lane.bayId)
    .map((s) => (
      <Block
        key={s.arriveMin}
        scale={scale}
        from={s.arriveMin}
        to={s.leaveMin}
        form="offer"
        top={4}
        height={height}
      >
        {s.arriveMin > board.nowMin ? offer.key : ''}
      </Block>
    ));
}

/** The block in hand where it would lie, lit where a rule forbids it; it can be taken by its outline too. */
export function HeldGhosts(
  props: GhostProps & Pick<BoardProps, 'hands'> & { readonly onGrab: Grab },
): ReactNode {
  const { lane, scale, height } = props;
  const hand = useHeld(props.hands, (h) => (concerns(h, lane.bayId) ? h : null));
  const t = useText();
  const lifted = hand?.lifted;
  if (!lifted) return null;
  const form = shownOf(hand)?.ok === false ? 'lit' : 'offer';
  const said = (own: boolean): string => {
    if (hand.dropped === 'waits' || hand.dropped === 'sent') return t('bays.ghost.checked');
    if (own && lifted.mode === 'resize') return t('bays.ghost.end');
    return own && lifted.mode === 'split' ? t('bays.ghost.rest') : lifted.who;
  };
  // The same outline at each step, so that it is moved and not drawn anew.
  const outlines = outlinesIn(hand, lane.bayId).map((o: Outline, i) => (
    <div
      key={o.own ? 'held' : i}
      className={held['outline']}
      data-form={form}
      data-ghost={o.own}
      onPointerDown={props.onGrab(lifted.from)}
      style={{
        left: `${(scale.at(o.startMin) * 100).toFixed(3)}%`,
        width: `${((scale.at(o.endMin) - scale.at(o.startMin)) * 100).toFixed(3)}%`,
        height,
        lineHeight: `${height}px`,
      }}
    >
      {said(o.own)}
    </div>
  ));
  return <div className={held['outlines']}>{outlines}</div>;
}

/** Whether what is in hand comes from a lane or is shown in it; with its whole job it may be in any. */
function concerns({ lifted }: Hand, bayId: BayId): boolean {
  return (
    lifted !== null && (lifted.mode === 'whole' || lifted.bayId === bayId || lifted.from.bayId === bayId)
  );
}
