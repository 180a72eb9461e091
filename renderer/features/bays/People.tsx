import { Fragment, type ReactNode } from 'react';
import type { BoardView } from '#core/shared/views/bays.ts';
import { useText } from '../../bridge/texts.tsx';
import type { TimeScale } from '../../ui/time/scale.ts';
import { Block } from '../../ui/time/Time.tsx';
import css from './bays.module.css';
import { formOf } from './Car.tsx';
import { fitName } from './fit.ts';
import type { Lifted } from './useMoves.ts';

/** Who works on what: one row per person, hours booked of hours there. */
export function People(props: {
  readonly board: BoardView;
  readonly scale: TimeScale;
  readonly px: number;
  readonly held: Lifted | null;
}): ReactNode {
  const { board, scale } = props;
  const t = useText();
  return board.people.map((person) => (
    <Fragment key={person.personId}>
      <div className={css['side']} data-person="true">
        <b title={person.name}>{firstName(person.name, board.people)}</b>
        <span className="num">
          {t('bays.ofHours', {
            booked: String(Math.round(person.bookedMin / 60)),
            shift: String(Math.round(person.shiftMin / 60)),
          })}
        </span>
      </div>
      <div
        className={css['lane']}
        data-person="true"
        data-who={person.personId}
        data-held={props.held?.personId === person.personId}
      >
        {person.away.map((a) => (
          <Block
            key={a.startMin}
            scale={scale}
            from={a.startMin}
            to={a.endMin}
            form="away"
            top={3}
            height={22}
          >
            {t('bays.away')}
          </Block>
        ))}
        {props.held?.personId === person.personId ? (
          <Block
            scale={scale}
            from={props.held.startMin}
            to={props.held.startMin + props.held.lengthMin}
            form="offer"
            top={3}
            height={22}
          />
        ) : null}
        {board.blocks.flatMap((b) =>
          b.pieces
            .filter((p) => p.personIds.includes(person.personId))
            .map((p) => (
              <Block
                key={`${p.stageId}/${p.startMin}`}
                scale={scale}
                from={p.startMin}
                to={p.endMin}
                form={formOf(p)}
                top={3}
                height={22}
                title={`${b.who}, ${t(`word.stage.${p.kind}`)}`}
              >
                {fitName(b.who, (scale.at(p.endMin) - scale.at(p.startMin)) * props.px - 10, 15)}
              </Block>
            )),
        )}
      </div>
    </Fragment>
  ));
}

/** The first name, or the whole one where two share it. */
function firstName(name: string, people: BoardView['people']): string {
  const first = name.split(' ')[0] ?? name;
  return people.filter((p) => p.name.split(' ')[0] === first).length > 1 ? name : first;
}
