import type { ReactNode } from 'react';
import type { LaneView, StayPlan } from '#core/shared/views/bays.ts';
import { useText } from '../../bridge/texts.tsx';
import { Block } from '../../ui/time/Time.tsx';
import type { BoardProps } from './boardProps.ts';
import type { Moves } from './useMoves.ts';

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

/** The block in hand where it is held, lit where a rule forbids it; with its whole job, wherever that would stand. */
export function HeldGhosts(props: GhostProps & { readonly moves: Moves }): ReactNode {
  const { lane, scale, moves, height } = props;
  const t = useText();
  const held = moves.lifted;
  if (!held) return null;
  const form = moves.check?.ok === false ? 'lit' : 'offer';
  // The same block at each step, so that it is moved and not drawn anew.
  const ghost = (from: number, to: number, text: string, key = 'held'): ReactNode => (
    <Block key={key} scale={scale} from={from} to={to} form={form} top={4} height={height}>
      {text}
    </Block>
  );
  if (held.mode === 'split' || held.mode === 'resize') {
    if (held.from.bayId !== lane.bayId) return null;
    if (held.mode === 'resize') return ghost(held.piece.startMin, held.atMin, t('bays.ghost.end'));
    return ghost(held.atMin, held.piece.endMin, t('bays.ghost.rest'));
  }
  const others = held.mode === 'whole' ? staysElsewhere(moves, lane) : [];
  return (
    <>
      {others.map((s, i) => ghost(s.arriveMin, s.leaveMin, held.who, `${i}`))}
      {held.bayId === lane.bayId ? ghost(held.startMin, held.startMin + held.lengthMin, held.who) : null}
    </>
  );
}

/** The places of the rest of a whole job that is held, as the core would lay them. */
function staysElsewhere(moves: Moves, lane: LaneView): readonly StayPlan[] {
  const { lifted, check } = moves;
  if (!check?.ok || !('plan' in check) || lifted?.bayId === lane.bayId) return [];
  return check.plan.stays.filter((s) => s.bayId === lane.bayId);
}
