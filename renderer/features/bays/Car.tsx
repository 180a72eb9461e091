import type { KeyboardEvent, PointerEvent, ReactNode } from 'react';
import { hours } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import { span } from '#core/shared/text/when.ts';
import type { BlockView, PieceView } from '#core/shared/views/bays.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import type { Form } from '../../ui/charts/Bars.tsx';
import type { TimeScale } from '../../ui/time/scale.ts';
import css from './bays.module.css';
import { fitName, fitText, lastName, textWidth } from './fit.ts';
import { lastAttended } from './held.ts';
import { isAwaited } from './laneRows.ts';

const percent = (share: number): string => `${(share * 100).toFixed(3)}%`;

export type CarProps = {
  readonly scale: TimeScale;
  readonly block: BlockView;
  readonly top: number;
  readonly height: number;
  /** Width of the whole lane in px, to know what can be written. */
  readonly px: number;
  /** Until when nothing is drawn over it: what is written has to end there. */
  readonly clearMin: number;
  readonly nowMin: number;
  readonly lit: boolean;
  readonly lifted: boolean;
  readonly onLift: () => void;
  readonly onKey: (event: KeyboardEvent) => void;
  readonly onGrab: (event: PointerEvent<HTMLButtonElement>) => void;
};

/** One car standing in one place: its name above, its stages in their forms below. */
export function Car(props: CarProps): ReactNode {
  const { scale, block } = props;
  const t = useText();
  const manner = useManner();
  const [left, right] = [scale.at(block.arriveMin), scale.at(block.leaveMin)];
  const width = Math.max(right - left, 0.004);
  const awaited = isAwaited(block, props.nowMin);
  const awaitedWord = awaited ? `${t('bays.awaited')}, ` : '';
  const stands = standsFor(manner, block, props.nowMin);
  const name = `${block.who}, ${awaitedWord}${block.vehicle}, ${stands}`;
  const work = hours(manner, block.workMin);
  const clear = Math.min(width, scale.at(props.clearMin) - left);
  const room = clear * props.px - 14;
  const long = props.lifted ? 'bays.liftedFrom' : awaited ? 'bays.notCome' : null;
  const said = long ? fitText(t(long, { who: lastName(block.who) }), room, 13, true) : '';
  const who = said || fitName(block.who, room);
  const amount = fitText(` ${work.value} ${work.unit}`, room - textWidth(who));
  const past = block.leaveMin <= props.nowMin && !awaited;
  return (
    <button
      type="button"
      className={css['car']}
      data-state={block.state}
      data-lit={props.lit && !past}
      data-past={past}
      data-awaited={awaited}
      data-size={sizeOf(props.height)}
      data-lifted={props.lifted}
      data-job={block.jobId}
      aria-pressed={props.lifted}
      aria-label={name}
      title={name}
      style={{ left: percent(left), width: percent(width), top: props.top, height: props.height }}
      onClick={props.onLift}
      onKeyDown={props.onKey}
      onPointerDown={props.onGrab}
    >
      <span className={css['carName']}>
        <b>{who}</b>
        {who ? <span className="dusty">{amount}</span> : null}
      </span>
      {block.pieces.some((p) => p.state === 'planned') && width * props.px > 54 ? (
        <EndEdge {...props} left={left} width={width} />
      ) : null}
      {block.pieces.map((piece) => (
        <Piece
          key={`${piece.stageId}/${piece.startMin}`}
          piece={piece}
          scale={scale}
          left={left}
          width={width}
          px={props.px}
          covered={block.pieces.some((p) => p !== piece && covers(p, piece))}
        />
      ))}
    </button>
  );
}

/** From when to when, for who cannot see the days above: with the date where it is none of the coming days. */
function standsFor(manner: Manner, { arriveMin, leaveMin }: BlockView, nowMin: number): string {
  return span(manner, arriveMin * 60_000, leaveMin * 60_000, nowMin * 60_000);
}

/** Half: room for a flag above the words too; low: words and stages; thin: the stages as a strip under the words. */
function sizeOf(height: number): 'full' | 'half' | 'low' | 'thin' {
  if (height >= 60) return 'full';
  if (height >= 46) return 'half';
  return height >= 32 ? 'low' : 'thin';
}

/** The right edge of the last work that is still planned: drawn by the mouse, it ends sooner or later. */
function EndEdge(props: CarProps & { readonly left: number; readonly width: number }): ReactNode {
  const last = lastAttended(props.block);
  if (!last) return null;
  const at = (props.scale.at(last.endMin) - props.left) / props.width;
  return <span className={css['edge']} data-edge="end" style={{ left: percent(at) }} />;
}

function Piece(props: {
  readonly piece: PieceView;
  readonly scale: TimeScale;
  readonly left: number;
  readonly width: number;
  readonly px: number;
  readonly covered: boolean;
}): ReactNode {
  const t = useText();
  const { piece, scale, left, width } = props;
  const at = (time: number): number => (scale.at(time) - left) / width;
  const part = (from: number, to: number, form: Form, label: string): ReactNode => (
    <span
      className={css['piece']}
      data-form={form}
      style={{ left: percent(at(from)), width: percent(at(to) - at(from)) }}
    >
      {form === 'late' || props.covered ? '' : fitText(label, (at(to) - at(from)) * width * props.px - 7)}
    </span>
  );
  return (
    <>
      {piece.endMin > piece.startMin
        ? part(piece.startMin, piece.endMin, formOf(piece), t(`word.stage.${piece.kind}`))
        : null}
      {piece.dwellEndMin > piece.endMin ? part(piece.endMin, piece.dwellEndMin, 'cure', '') : null}
    </>
  );
}

/** Two stages drawn over each other, since one runs over: only the first can be read. */
export function covers(a: PieceView, b: PieceView): boolean {
  return a.startMin <= b.startMin && a.endMin > b.startMin;
}

export function formOf(piece: Pick<PieceView, 'state' | 'late'>): Form {
  if (piece.state === 'done') return 'done';
  if (piece.late) return 'late';
  return piece.state === 'inWork' ? 'work' : 'plan';
}
