import type { ReactNode } from 'react';
import type { PersonId } from '#core/shared/ids.ts';
import type { CardStage } from '#core/shared/views/card.ts';
import type { HerePerson, Me } from '#core/shared/views/people.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { Segmented } from '../../ui/Choice.tsx';

/** Who is on the stage now. */
export function runningOn(stage: CardStage): readonly PersonId[] {
  return stage.work.filter((w) => w.endMs === null).map((w) => w.person.id);
}

/**
 * Whom the clock is for unless somebody is chosen: whoever is on it already, else the person at this window if they
 * work in the bays, else the one the board has placed there.
 */
export function usualWorker(stage: CardStage, people: readonly HerePerson[], me: Me): PersonId {
  const running = runningOn(stage);
  if (running.length > 0) return running.includes(me.personId) ? me.personId : (running[0] ?? me.personId);
  if (me.role === 'technician') return me.personId;
  const placed = stage.place?.people.find((p) => people.some((here) => here.id === p.id));
  return placed?.id ?? me.personId;
}

/** Who works: the clock of the stage is theirs; whoever is signed in at this window stays so. */
export function WhoWorks(props: {
  readonly stage: CardStage;
  readonly value: PersonId;
  readonly onChange: (personId: PersonId) => void;
}): ReactNode {
  const t = useText();
  const people = useQuery('access.here', {}).data?.people ?? [];
  const running = runningOn(props.stage);
  return (
    <Segmented<PersonId>
      label={t('card.who')}
      value={props.value}
      onChange={props.onChange}
      options={people.map((p) => ({
        value: p.id,
        label: p.name,
        ...(running.includes(p.id) ? { count: t('card.works') } : {}),
      }))}
    />
  );
}
