import type { KeyboardEvent, PointerEvent, ReactNode } from 'react';
import { clock } from '#core/shared/text/when.ts';
import type { BlockView, LaneView } from '#core/shared/views/bays.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Block, Flag } from '../../ui/time/Time.tsx';
import css from './bays.module.css';
import type { BoardProps, Room } from './boardProps.ts';
import { Car } from './Car.tsx';
import { hang } from './fit.ts';

type LaneProps = BoardProps &
  Room & {
    readonly lane: LaneView;
    readonly onGrab: (block: BlockView) => (event: PointerEvent<HTMLButtonElement>) => void;
    readonly onKey: (block: BlockView) => (event: KeyboardEvent) => void;
  };

/** One bay, or the yard with its cars one above the other. */
export function Lane(props: LaneProps): ReactNode {
  const { board, lane, moves, scale, offer } = props;
  const t = useText();
  const blocks = board.blocks.filter((b) => b.bayId === lane.bayId);
  const yard = lane.capacity > 1;
  const rows = yard ? rowsOf(blocks) : blocks.map(() => 0);
  const height = yard ? 22 : props.carHeight;
  const compact = height < 44;
  const full = lane.use.openMin === 0 ? 0 : Math.round((1 - lane.use.idleMin / lane.use.openMin) * 100);
  const laneHeight = (yard ? Math.max(1, Math.max(0, ...rows) + 1) * 24 : height) + 8;
  const held = moves.lifted?.bayId === lane.bayId ? moves.lifted : null;
  return (
    <>
      <div className={css['side']}>
        <b>{lane.name}</b>
        {yard || compact ? null : <span>{t(`word.bay.${lane.kind}`)}</span>}
        <span className="num">{t('bays.full', { percent: full })}</span>
      </div>
      <div
        className={css['lane']}
        data-bay={lane.bayId}
        data-compact={compact || yard}
        data-held={held !== null}
        style={{ height: laneHeight }}
      >
        {lane.closed.map((c) => (
          <Block
            key={c.startMin}
            scale={scale}
            from={c.startMin}
            to={c.endMin}
            form="away"
            height={laneHeight}
          >
            {t('bays.closed')}
          </Block>
        ))}
        {blocks.map((block, i) => (
          <Car
            key={`${block.jobId}/${block.arriveMin}`}
            scale={scale}
            block={block}
            px={props.width}
            nowMin={board.nowMin}
            top={4 + (yard ? (rows[i] ?? 0) * 24 : 0)}
            height={height}
            lit={board.conflicts.some((c) => c.jobId === block.jobId && !c.acknowledged)}
            lifted={
              moves.lifted?.from.jobId === block.jobId && moves.lifted.from.arriveMin === block.arriveMin
            }
            onLift={() => (moves.lifted ? undefined : moves.lift(block))}
            onKey={props.onKey(block)}
            onGrab={props.onGrab(block)}
          />
        ))}
        <Flags {...props} />
        {offer?.plan.stays
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
              {offer.key}
            </Block>
          ))}
        {held ? (
          <Block
            scale={scale}
            from={held.startMin}
            to={held.startMin + held.lengthMin}
            form={moves.check?.ok === false ? 'lit' : 'offer'}
            top={4}
            height={height}
          >
            {held.who}
          </Block>
        ) : null}
      </div>
    </>
  );
}

/** Promises hang at the time they are for; in the yard only as poles, for the rows there are too low. */
function Flags(props: LaneProps): ReactNode {
  const t = useText();
  const manner = useManner();
  const flags = props.board.promises
    .filter((p) => p.bayId === props.lane.bayId)
    .map((p) => {
      const now = props.promises.find((x) => x.jobId === p.jobId);
      const ppm = now?.nowPpm ?? p.promisedPpm;
      const percent = ppm === null ? '?' : String(Math.round(ppm / 10_000));
      const long = t('bays.flag', { at: clock(manner, p.atMin * 60_000), percent });
      const at = props.scale.at(p.atMin) * props.width;
      return { ...p, at, long, short: `${percent} %`, lit: now?.atRisk ?? false };
    });
  const labels = props.lane.capacity > 1 ? flags.map(() => '') : hang(flags);
  return flags.map((f, i) => (
    <Flag
      key={f.jobId}
      scale={props.scale}
      at={f.atMin}
      lit={f.lit}
      {...(labels[i] ? { label: labels[i] } : {})}
    />
  ));
}

/** Rows for cars that stand in the yard at the same time. */
function rowsOf(blocks: readonly BlockView[]): readonly number[] {
  const ends: number[] = [];
  const order = blocks.map((b, i) => ({ b, i })).sort((x, y) => x.b.arriveMin - y.b.arriveMin);
  const rows: number[] = blocks.map(() => 0);
  for (const { b, i } of order) {
    const free = ends.findIndex((end) => end <= b.arriveMin);
    const row = free === -1 ? ends.length : free;
    ends[row] = b.leaveMin;
    rows[i] = row;
  }
  return rows;
}
