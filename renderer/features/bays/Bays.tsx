import { type ReactNode, useCallback, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { dayTime } from '#core/shared/text/when.ts';
import { isoWeek } from '#core/shared/time.ts';
import type { OfferView } from '#core/shared/views/bays.ts';
import { useHand } from '../../bridge/inHand.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Key } from '../../ui/charts/Bars.tsx';
import { Column, Head, Place } from '../../ui/Layout.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { useShortcuts } from '../../ui/shortcuts.ts';
import { Board } from './Board.tsx';
import held from './held.module.css';
import { Conflicts, HeldNote } from './Notes.tsx';
import { OffersStrip } from './OffersStrip.tsx';
import { Replan } from './Replan.tsx';
import { useMoves } from './useMoves.ts';
import { useWeek } from './useWeek.ts';

/** The board: bays, yard and people over a week, with the offers for the job in hand below. */
export function Bays(): ReactNode {
  const t = useText();
  const week = useWeek();
  const board = week.board.data;
  const promises = useQuery('bays.promises', {}, { keep: true });
  const moves = useMoves(board);
  const hand = useHand();
  const [offer, setOffer] = useState<OfferView | null>(null);
  const [replanning, setReplanning] = useState(false);
  const show = useCallback((o: OfferView | null) => setOffer(o), []);
  useShortcuts({ 'Ctrl+Z': () => moves.undo?.(), 'Ctrl+Y': () => moves.redo?.(), Escape: moves.putBack });
  const number = Number(isoWeek(week.monday).slice(-2));
  return (
    <Place label={t('ui.place.bays')} columns="one">
      <Column>
        <Head title={t('bays.title', { week: number })} note={<Legend />}>
          <LinkButton onPress={() => week.turn(-1)}>{t('bays.earlier')}</LinkButton>
          <LinkButton onPress={() => week.turn(0)}>{t('bays.thisWeek')}</LinkButton>
          <LinkButton onPress={() => week.turn(1)}>{t('bays.later')}</LinkButton>
          {moves.undo ? <LinkButton onPress={moves.undo}>{t('bays.undo')}</LinkButton> : null}
          {moves.redo ? <LinkButton onPress={moves.redo}>{t('bays.redo')}</LinkButton> : null}
          <LinkButton onPress={() => setReplanning(true)}>{t('bays.replan')}</LinkButton>
          <LinkButton onPress={() => window.print()}>{t('bays.print')}</LinkButton>
        </Head>
        <Refusal refusal={week.board.error} />
        {week.board.loading ? <Waiting /> : null}
        {board && board.lanes.length === 0 ? (
          <Empty title={t('bays.noBays')}>
            <LinkTo to="/shop">{t('ui.place.shop')}</LinkTo>
          </Empty>
        ) : null}
        {replanning && week.scale ? (
          <Replan scale={week.scale} onApplied={moves.remember} onClose={() => setReplanning(false)} />
        ) : null}
        {board ? <Conflicts board={board} /> : null}
        {board && week.scale ? (
          <Board
            board={board}
            scale={week.scale}
            ticks={week.ticks}
            promises={promises.data ?? []}
            moves={moves}
            offer={offer}
          />
        ) : null}
        <div className={held['held']}>
          <div>
            <HeldNote moves={moves} />
          </div>
        </div>
        {hand.current ? (
          <HandOffers key={hand.current} jobId={hand.current} onShow={show} />
        ) : board && board.blocks.length === 0 && board.lanes.length > 0 ? (
          <Empty title={t('bays.empty')} />
        ) : null}
      </Column>
    </Place>
  );
}

function Legend(): ReactNode {
  const t = useText();
  return (
    <Key
      entries={[
        { form: 'done', label: t('bays.state.done') },
        { form: 'work', label: t('bays.state.inWork') },
        { form: 'cure', label: t('bays.state.curing') },
        { form: 'plan', label: t('bays.state.planned') },
        { form: 'offer', label: t('bays.state.offered') },
        { form: 'late', label: t('bays.state.late') },
      ]}
    />
  );
}

/** Offers for the job in hand. What is booked is not drawn over with other dates until they are asked for. */
function HandOffers(props: {
  readonly jobId: JobId;
  readonly onShow: (offer: OfferView | null) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const facts = useQuery('bookings.hand', { jobIds: [props.jobId] });
  const [anew, setAnew] = useState(false);
  if (!facts.data) return null;
  const [job] = facts.data;
  const until = job?.pickUpMin ?? null;
  if (until === null || anew) return <OffersStrip {...props} onBooked={() => setAnew(false)} />;
  return (
    <p className="quiet">
      {t('bays.booked', { who: job?.customer ?? '', at: dayTime(manner, until * 60_000) })}{' '}
      <LinkButton quiet onPress={() => setAnew(true)}>
        {t('bays.otherDates')}
      </LinkButton>
    </p>
  );
}
