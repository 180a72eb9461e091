import { memo, type ReactNode } from 'react';
import type { BoardView, PersonLaneView } from '#core/shared/views/bays.ts';
import { useText } from '../../bridge/texts.tsx';
import { Block } from '../../ui/time/Time.tsx';
import css from './bays.module.css';
import type { BoardProps } from './boardProps.ts';
import { formOf } from './Car.tsx';
import { fitName, readableUntil } from './fit.ts';
import { useHeld } from './hand.ts';
import type { Held } from './held.ts';
import { useFace } from './useFace.ts';

type PeopleProps = Pick<BoardProps, 'board' | 'scale' | 'onPause' | 'hands'> & { readonly px: number };
const BAR = { top: 3, height: 22 } as const;

/** Who works on what: one row per person, hours booked of hours there. */
export function People(props: PeopleProps): ReactNode {
  return props.board.people.map((person) => <Person key={person.personId} {...props} person={person} />);
}

const Person = memo(function Person(props: PeopleProps & { readonly person: PersonLaneView }): ReactNode {
  const { board, scale, person, px } = props;
  const t = useText();
  const isHeld = useHeld(props.hands, ({ lifted }) => lifted?.personId === person.personId);
  return (
    <>
      <PersonHead person={person} people={board.people} onPause={props.onPause} />
      <div className={css['lane']} data-person="true" data-who={person.personId} data-held={isHeld}>
        {person.away.map((a) => (
          <Block key={a.startMin} scale={scale} from={a.startMin} to={a.endMin} form="away" {...BAR}>
            {t('bays.away')}
          </Block>
        ))}
        {isHeld ? <HeldWork scale={scale} hands={props.hands} /> : null}
        <Work {...{ scale, person, px }} />
      </div>
    </>
  );
});

function PersonHead(
  props: Pick<BoardProps, 'onPause'> & {
    readonly person: PersonLaneView;
    readonly people: BoardView['people'];
  },
): ReactNode {
  const { person, people } = props;
  const t = useText();
  const whole = (minutes: number): string => String(Math.round(minutes / 60));
  return (
    <div className={css['side']} data-person="true">
      <button
        type="button"
        className={css['sideName']}
        title={t('bays.pause.person', { name: person.name })}
        onClick={() => props.onPause({ personId: person.personId, name: person.name })}
      >
        {firstName(person.name, people)}
      </button>
      <span className="num">
        {t('bays.ofHours', { booked: whole(person.bookedMin), shift: whole(person.shiftMin) })}
      </span>
    </div>
  );
}

/** The work in hand, where it is held over somebody's row. */
function HeldWork({ scale, hands }: Pick<BoardProps, 'scale' | 'hands'>): ReactNode {
  const held = useHeld(hands, ({ lifted }) => lifted);
  if (!held) return null;
  const [from, to] = spanOf(held);
  return <Block scale={scale} from={from} to={to} form="offer" {...BAR} />;
}

function spanOf(held: Held): readonly [number, number] {
  if (held.mode === 'split') return [held.atMin, held.piece.endMin];
  return [held.startMin, held.startMin + held.lengthMin];
}

/** What somebody does, in the order of time: what begins later lies on top, and names end where it begins. */
const Work = memo(function Work(
  props: Pick<PeopleProps, 'scale' | 'px'> & { readonly person: PersonLaneView },
): ReactNode {
  const { scale, person, px } = props;
  useFace();
  const t = useText();
  const clear = readableUntil(person.work.map((p) => [p.startMin, p.endMin]));
  return person.work.map((p, i) => (
    <Block
      key={`${p.stageId}/${p.startMin}`}
      scale={scale}
      from={p.startMin}
      to={p.endMin}
      form={formOf(p)}
      {...BAR}
      title={`${p.who}, ${t(`word.stage.${p.kind}`)}`}
    >
      {fitName(p.who, (scale.at(clear[i] ?? p.endMin) - scale.at(p.startMin)) * px - 10, 15)}
    </Block>
  ));
});

/** The first name, or the whole one where two share it. */
function firstName(name: string, people: BoardView['people']): string {
  const first = name.split(' ')[0] ?? name;
  return people.filter((p) => p.name.split(' ')[0] === first).length > 1 ? name : first;
}
