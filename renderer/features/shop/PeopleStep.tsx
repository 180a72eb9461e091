import { type ReactNode, useState } from 'react';
import { MOST_LETTERS } from '#core/shared/letters.ts';
import { ROLES } from '#core/shared/roles.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import type { Draft } from './draft.ts';
import { NewPin } from './NewPin.tsx';
import type { StepProps } from './SetUpSteps.tsx';
import { pinFault, twice } from './setUpFaults.ts';
import css from './shop.module.css';

export function PeopleStep({ draft, change }: StepProps): ReactNode {
  const t = useText();
  const put = (at: number, part: Partial<Draft['people'][number]>): void =>
    change({ people: draft.people.map((p, i) => (i === at ? { ...p, ...part } : p)) });
  const doubled = twice([draft.owner, ...draft.people.map((p) => p.name)]);
  // The row that was just added takes what is typed next.
  const [added, setAdded] = useState(false);
  function add(): void {
    setAdded(true);
    change({ people: [...draft.people, { name: '', role: 'technician' }] });
  }
  return (
    <div className={css['form']}>
      <TextField
        label={t('shop.owner')}
        value={draft.owner}
        maxLength={MOST_LETTERS.name}
        onChange={(owner) => change({ owner })}
        autoFocus
      />
      <NewPin
        label={t('shop.ownerPin')}
        hint={t('shop.optional')}
        error={pinFault(draft.pin) ? t('shop.setUp.pinShape') : undefined}
        pin={draft.pin}
        again={draft.pinAgain}
        onPin={(pin) => change({ pin })}
        onAgain={(pinAgain) => change({ pinAgain })}
      />
      {draft.people.map((person, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: lines have no identity of their own until they are saved
        <Stack key={i} gap={0}>
          <TextField
            label={t('shop.person')}
            value={person.name}
            maxLength={MOST_LETTERS.name}
            autoFocus={added && i === draft.people.length - 1}
            error={doubled.includes(person.name.trim()) ? t('shop.setUp.isTwice') : undefined}
            onChange={(name) => put(i, { name })}
          />
          <Row>
            <Segmented
              bare
              label={t('shop.role')}
              value={person.role}
              options={ROLES.map((role) => ({ value: role, label: t(`word.role.${role}`) }))}
              onChange={(role) => put(i, { role })}
            />
            <LinkButton quiet onPress={() => change({ people: draft.people.filter((_, at) => at !== i) })}>
              {t('shop.personOut')}
            </LinkButton>
          </Row>
        </Stack>
      ))}
      <Row>
        <LinkButton onPress={add}>{t('shop.personAdd')}</LinkButton>
      </Row>
    </div>
  );
}
