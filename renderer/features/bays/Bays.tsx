import { type ReactNode, useCallback, useState } from 'react';
import type { PromiseNow } from '#core/shared/views/bays.ts';
import type { OfferView } from '#core/shared/views/offers.ts';
import { useHand } from '../../bridge/inHand.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Column, Place } from '../../ui/Layout.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { dropSecondClick } from '../../ui/secondClick.ts';
import { useShortcuts } from '../../ui/shortcuts.ts';
import { BaysHead } from './BaysHead.tsx';
import { Board } from './Board.tsx';
import css from './bays.module.css';
import type { Paused } from './boardProps.ts';
import { Conflicts } from './Conflicts.tsx';
import { FellBelow } from './FellBelow.tsx';
import { HandOffers } from './HandOffers.tsx';
import { HeldNote } from './HeldNote.tsx';
import held from './held.module.css';
import { Pause } from './Pause.tsx';
import { Replan } from './Replan.tsx';
import { useFell } from './useFell.ts';
import { type Moves, useMoves } from './useMoves.ts';
import { useWeek } from './useWeek.ts';

/** What is open above the board: the look for a better plan, or when a place is closed or somebody away. */
type Panel = 'replan' | Paused | null;

const NONE: readonly PromiseNow[] = [];

/** The board: bays, yard and people over a stretch of days, with the offers for the job in hand below. */
export function Bays(): ReactNode {
  const t = useText();
  const week = useWeek();
  const board = week.board.data;
  const promises = useQuery('bays.promises', {}, { keep: true });
  const moves = useMoves(board);
  const hand = useHand();
  const { offer, show } = useOffer(week.see);
  const [panel, setPanel] = useState<Panel>(null);
  const fell = useFell(promises, moves.last);
  useMoveKeys(moves);
  const shut = (): void => {
    dropSecondClick();
    setPanel(null);
  };
  return (
    <Place label={t('ui.place.bays')} columns="one">
      <Column>
        <BaysHead week={week} moves={moves} onReplan={() => setPanel('replan')} />
        <Refusal refusal={week.board.error} />
        {week.board.loading ? <Waiting /> : null}
        {panel === 'replan' && week.scale ? <Replan onApplied={moves.remember} onClose={shut} /> : null}
        {panel && panel !== 'replan' && board ? (
          <Pause
            key={panel.name}
            of={panel}
            nowMin={board.nowMin}
            onReplan={() => setPanel('replan')}
            onClose={shut}
          />
        ) : null}
        {board ? <Conflicts board={board} onReplan={() => setPanel('replan')} /> : null}
        {board && week.scale && board.lanes.length > 0 ? (
          <>
            <Board
              board={board}
              scale={week.scale}
              ticks={week.ticks}
              promises={promises.data ?? NONE}
              moves={moves}
              offer={offer}
              onPause={setPanel}
            />
            <div className={held['held']}>
              <div>
                <HeldNote moves={moves} board={board} />
                {moves.lifted ? null : <FellBelow note={fell} moves={moves} nowMs={board.nowMin * 60_000} />}
              </div>
            </div>
          </>
        ) : null}
        {board ? <NothingThere lanes={board.lanes.length} cars={board.blocks.length} /> : null}
        {hand.current ? (
          <HandOffers key={hand.current} jobId={hand.current} onShow={show} onSee={week.see} />
        ) : null}
      </Column>
    </Place>
  );
}

function useMoveKeys(moves: Moves): void {
  const redo = (): void => moves.redo?.run();
  const undo = (): void => moves.undo?.run();
  useShortcuts({ 'Ctrl+Z': undo, 'Ctrl+Shift+Z': redo, 'Ctrl+Y': redo, Escape: moves.putBack });
}

/** The offer that is looked at; the board turns to the days it begins in. */
function useOffer(see: (min: number) => void) {
  const [offer, setOffer] = useState<OfferView | null>(null);
  const show = useCallback(
    (o: OfferView | null) => {
      setOffer(o);
      if (o) see(o.dropOffMin);
    },
    [see],
  );
  return { offer, show };
}

function NothingThere(props: { readonly lanes: number; readonly cars: number }): ReactNode {
  const t = useText();
  const hand = useHand();
  if (props.lanes === 0)
    return (
      <Empty title={t('bays.noBays')}>
        <LinkTo to="/shop">{t('ui.place.shop')}</LinkTo>
      </Empty>
    );
  if (props.cars > 0 || hand.current) return null;
  return (
    <div className={css['screenOnly']}>
      <Empty title={t('bays.empty')}>
        <LinkTo to="/jobs">{t('ui.place.jobs')}</LinkTo>
      </Empty>
    </div>
  );
}
