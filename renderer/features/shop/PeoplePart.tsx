import { type ReactNode, useState } from 'react';
import { ROLES, type Role } from '#core/shared/roles.ts';
import { date } from '#core/shared/text/when.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { StaffRow } from '#core/shared/views/people.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay, useMe } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Head, Row, Stack } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './shop.module.css';

/** Who works here, who did; names, roles, PINs, last days. */
export function PeoplePart(): ReactNode {
  const t = useText();
  const manner = useManner();
  const people = useQuery('access.people', {});
  const [chosen, setChosen] = useState<string | null>(null);
  const person = people.data?.find((p) => p.id === chosen);
  return (
    <div className={css['form']}>
      <Refusal refusal={people.error} />
      <List label={t('shop.part.people')}>
        {people.data?.map((p) => (
          <Item
            key={p.id}
            selected={p.id === chosen}
            onPress={() => setChosen(p.id === chosen ? null : p.id)}
          >
            <span className={css['step']}>
              <b className="cut">{p.name}</b>
              <span className="t1 quiet">
                {[
                  t(`word.role.${p.role}`),
                  p.hasPin ? t('shop.hasPin') : t('shop.noPin'),
                  t('shop.since', { day: date(manner, p.startedDay) }),
                  p.endedDay ? t('shop.until', { day: date(manner, p.endedDay) }) : '',
                ]
                  .filter(Boolean)
                  .join(' · ')}
              </span>
            </span>
          </Item>
        ))}
      </List>
      {person ? <OnePerson key={`${person.id} ${person.revision}`} person={person} /> : <NewPerson />}
    </div>
  );
}

function RoleChoice(props: {
  readonly role: Role;
  readonly onChange: (role: Role) => void;
  readonly off: string | undefined;
}): ReactNode {
  const t = useText();
  return (
    <Segmented
      label={t('shop.role')}
      value={props.role}
      options={ROLES.map((role) => ({ value: role, label: t(`word.role.${role}`), why: props.off }))}
      onChange={props.onChange}
    />
  );
}

function OnePerson(props: { readonly person: StaffRow }): ReactNode {
  const t = useText();
  const { person } = props;
  const off = useMay('owner') ? undefined : t('shop.onlyOwner');
  const [name, setName] = useState(person.name);
  const [role, setRole] = useState(person.role);
  const [lastDay, setLastDay] = useState<LocalDay | null>(person.endedDay);
  const change = useCommand('access.changePerson');
  const end = useCommand('access.endPerson');
  const { id: personId, revision } = person;
  return (
    <Stack>
      <TextField label={t('shop.person')} value={name} onChange={setName} off={off} />
      <RoleChoice role={role} onChange={setRole} off={off} />
      <Row>
        <Button
          why={off}
          busy={change.busy}
          onPress={() => void change.run({ personId, revision, name, role })}
        >
          {t('shop.save')}
        </Button>
      </Row>
      <Refusal refusal={change.refusal} />
      <PinOf person={person} />
      <DayField label={t('shop.lastDay')} value={lastDay} onChange={setLastDay} off={off} />
      <Row>
        <LinkButton
          why={off ?? (lastDay === null ? t('shop.lastDay') : undefined)}
          onPress={() => (lastDay ? void end.run({ personId, revision, lastDay }) : undefined)}
        >
          {t('shop.end')}
        </LinkButton>
      </Row>
      <Refusal refusal={end.refusal} />
    </Stack>
  );
}

/** People set their own PIN with the present one; an owner anybody's. */
function PinOf(props: { readonly person: StaffRow }): ReactNode {
  const t = useText();
  const me = useMe();
  const isOwner = useMay('owner');
  const setPin = useCommand('access.setPin');
  const [pin, setNew] = useState('');
  const [presentPin, setPresent] = useState('');
  const [wrong, setWrong] = useState(false);
  const own = me?.personId === props.person.id;
  const off = own || isOwner ? undefined : t('shop.onlyOwner');
  const asks = own && !isOwner && props.person.hasPin;
  async function put(next: string | null): Promise<void> {
    const done = await setPin.run({
      personId: props.person.id,
      pin: next,
      ...(presentPin ? { presentPin } : {}),
    });
    setWrong(done.ok && !done.value.set);
    if (done.ok && done.value.set) setNew('');
  }
  return (
    <Stack gap={1}>
      {asks ? (
        <TextField
          secret
          label={t('access.pinOf', { name: props.person.name })}
          value={presentPin}
          onChange={setPresent}
          error={wrong ? t('shop.pinWrong') : undefined}
        />
      ) : null}
      <TextField secret label={t('shop.newPin')} value={pin} maxLength={12} onChange={setNew} off={off} />
      <Row>
        <LinkButton why={off ?? (pin === '' ? t('shop.newPin') : undefined)} onPress={() => void put(pin)}>
          {t('shop.setPin')}
        </LinkButton>
        {props.person.hasPin ? (
          <LinkButton why={off} onPress={() => void put(null)}>
            {t('shop.removePin')}
          </LinkButton>
        ) : null}
      </Row>
      <Refusal refusal={setPin.refusal} />
    </Stack>
  );
}

function NewPerson(): ReactNode {
  const t = useText();
  const off = useMay('owner') ? undefined : t('shop.onlyOwner');
  const [name, setName] = useState('');
  const [role, setRole] = useState<Role>('technician');
  const add = useCommand('access.addPerson');
  async function put(): Promise<void> {
    const done = await add.run({ name, role });
    if (done.ok) setName('');
  }
  return (
    <Stack>
      <Head level={3} title={t('shop.newPerson')} />
      <TextField label={t('shop.person')} value={name} onChange={setName} off={off} />
      <RoleChoice role={role} onChange={setRole} off={off} />
      <Refusal refusal={add.refusal} />
      <Row>
        <Button
          why={off ?? (name.trim() === '' ? t('shop.person') : undefined)}
          busy={add.busy}
          onPress={() => void put()}
        >
          {t('shop.addPerson')}
        </Button>
      </Row>
    </Stack>
  );
}
