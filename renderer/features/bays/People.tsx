import { Fragment, type ReactNode } from 'react';
import { hours } from '#core/shared/text/format.ts';
import type { BoardView } from '#core/shared/views/bays.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import type { TimeScale } from '../../ui/time/scale.ts';
import { Block } from '../../ui/time/Time.tsx';
import css from './bays.module.css';
import { formOf } from './Car.tsx';

/** Who works on what: one row per person, hours booked of hours there. */
export function People(props: { readonly board: BoardView; readonly scale: TimeScale }): ReactNode {
  const { board, scale } = props;
  const t = useText();
  const manner = useManner();
  return board.people.map((person) => (
    <Fragment key={person.personId}>
      <div className={css['side']} data-person="true">
        <b>{person.name}</b>
        <span className="num">
          {t('bays.ofHours', {
            booked: hours(manner, person.bookedMin).value,
            shift: hours(manner, person.shiftMin).value,
          })}
        </span>
      </div>
      <div className={css['lane']} data-person="true">
        {person.away.map((a) => (
          <Block
            key={a.startMin}
            scale={scale}
            from={a.startMin}
            to={a.endMin}
            form="away"
            top={4}
            height={24}
          >
            {t('bays.away')}
          </Block>
        ))}
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
                top={4}
                height={24}
                title={`${b.who}, ${t(`word.stage.${p.kind}`)}`}
              >
                {b.who.split(' ').at(-1)}
              </Block>
            )),
        )}
      </div>
    </Fragment>
  ));
}
