import { type ReactNode, useCallback, useRef, useState } from 'react';
import type { BoardView, PromiseNow } from '#core/shared/views/bays.ts';
import type { OfferView } from '#core/shared/views/offers.ts';
import { useHand } from '../../bridge/inHand.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Column, Place } from '../../ui/Layout.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { dropSecondClick } from '../../ui/secondClick.ts';
import { useShortcuts } from '../../ui/shortcuts.ts';
import { Asking } from './Asking.tsx';
import { BaysHead } from './BaysHead.tsx';
import { Board } from './Board.tsx';
import css from './bays.module.css';
import type { Paused } from './boardProps.ts';
import { Conflicts } from './Conflicts.tsx';
import { FellBelow } from './FellBelow.tsx';
import { HandOffers } from './HandOffers.tsx';
import { HeldNote } from './HeldNote.tsx';
import { onceWritten, useHeld } from './hand.ts';
import held from './held.module.css';
import { Pause } from './Pause.tsx';
import { Replan } from './Replan.tsx';
import { type Changes, useChanges } from './useChanges.ts';
import { type FellNote, useFell } from './useFell.ts';
import { type Hands, useHands } from './useHands.ts';
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
  const changes = useChanges(board?.planRevision);
  const hands = useHands(board, changes);
  const hand = useHand();
  const { offer, show } = useOffer(week.see);
  const [panel, setPanel] = useState<Panel>(null);
  const fell = useFell(promises, changes.last);
  useMoveKeys(hands, changes);
  const shut = (): void => {
    dropSecondClick();
    setPanel(null);
  };
  return (
    <Place label={t('ui.place.bays')} columns="one">
      <Column>
        <BaysHead week={week} changes={changes} onReplan={() => setPanel('replan')} />
        <Refusal refusal={week.board.error} />
        {week.board.loading ? <Waiting /> : null}
        {panel === 'replan' && week.scale ? <Replan onApplied={changes.remember} onClose={shut} /> : null}
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
              hands={hands}
              offer={offer}
              onPause={setPanel}
            />
            <Notes {...{ board, hands, changes, fell }} />
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

/** What is said of the block in hand; with none in hand, what became of promises. */
function Notes(props: {
  readonly board: BoardView;
  readonly hands: Hands;
  readonly changes: Changes;
  readonly fell: FellNote;
}): ReactNode {
  const { board, hands, changes } = props;
  const isHeld = useHeld(hands, ({ lifted }) => lifted !== null);
  return (
    <div className={held['held']}>
      <Asking hands={hands} board={board} />
      <div>
        <HeldNote hands={hands} board={board} refusal={changes.refusal} />
        {isHeld ? null : <FellBelow note={props.fell} changes={changes} nowMs={board.nowMin * 60_000} />}
      </div>
    </div>
  );
}

/** A drop that is on its way is what a quick hand takes back: the keys wait for it. */
function useMoveKeys(hands: Hands, changes: Changes): void {
  const now = useRef(changes);
  now.current = changes;
  const redo = (): void => onceWritten(hands, () => now.current.redo?.run());
  const undo = (): void => {
    if (!hands.callBack()) onceWritten(hands, () => now.current.undo?.run());
  };
  useShortcuts({ 'Ctrl+Z': undo, 'Ctrl+Shift+Z': redo, 'Ctrl+Y': redo, Escape: hands.putBack });
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
