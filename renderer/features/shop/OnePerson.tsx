import { type ReactNode, useState } from 'react';
import { MOST_LETTERS } from '#core/shared/letters.ts';
import { ROLES, type Role } from '#core/shared/roles.ts';
import type { StaffRow } from '#core/shared/views/people.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useEdited } from '../../bridge/edited.ts';
import { useMay, useMe } from '../../bridge/person.ts';
import { sessionToken } from '../../bridge/session.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { Elsewhere } from '../../ui/Elsewhere.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import { HourCosts } from './HourCosts.tsx';
import { Leaving } from './Leaving.tsx';
import { NewPin } from './NewPin.tsx';
import { Saved } from './Saved.tsx';

type Named = { readonly name: string; readonly role: Role };

export function RoleChoice(props: {
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

/** Somebody's name, role, PIN and last day. */
export function OnePerson(props: { readonly person: StaffRow }): ReactNode {
  const t = useText();
  const { person } = props;
  const off = useMay('owner') ? undefined : t('shop.onlyOwner');
  const stored: Named = { name: person.name, role: person.role };
  const edited = useEdited<Named>(stored, person.revision);
  const [saved, setSaved] = useState(false);
  const change = useCommand('access.changePerson');
  function put(part: Partial<Named>): void {
    setSaved(false);
    edited.put(part);
  }
  async function save(): Promise<void> {
    const done = await change.run({ personId: person.id, revision: edited.revision, ...edited.draft });
    if (!done.ok) return;
    edited.saved();
    setSaved(true);
  }
  const label = { name: t('shop.person'), role: t('shop.role') };
  return (
    <Stack>
      <TextField
        label={label.name}
        value={edited.draft.name}
        maxLength={MOST_LETTERS.name}
        onChange={(name) => put({ name })}
        off={off}
      />
      <RoleChoice role={edited.draft.role} onChange={(role) => put({ role })} off={off} />
      <Elsewhere
        edited={edited}
        stored={stored}
        label={(field) => label[field]}
        value={(field) => (field === 'role' ? t(`word.role.${stored.role}`) : stored.name)}
      />
      <Row>
        <Button
          why={off ?? (edited.clashes.length > 0 ? t('ui.elsewhere.choose') : undefined)}
          busy={change.busy}
          onPress={() => void save()}
        >
          {t('shop.save')}
        </Button>
        <Saved when={saved} />
      </Row>
      <Refusal refusal={change.refusal} />
      <PinOf person={person} />
      {off === undefined ? <HourCosts person={person} /> : null}
      <Leaving person={person} />
    </Stack>
  );
}

/** People set their own PIN with the present one; an owner anybody's. */
export function PinOf(props: { readonly person: StaffRow }): ReactNode {
  const t = useText();
  const me = useMe();
  const isOwner = useMay('owner');
  const setPin = useCommand('access.setPin');
  const [pin, setNew] = useState('');
  const [again, setAgain] = useState('');
  const [presentPin, setPresent] = useState('');
  const [wrong, setWrong] = useState(false);
  const own = me?.personId === props.person.id;
  const off = own || isOwner ? undefined : t('shop.onlyOwner');
  const asks = own && !isOwner && props.person.hasPin;
  const notYet = pin === '' ? t('shop.newPin') : pin !== again ? t('shop.pinAgain') : undefined;
  async function put(next: string | null): Promise<void> {
    const done = await setPin.run({
      personId: props.person.id,
      pin: next,
      ...(presentPin ? { presentPin } : {}),
      token: sessionToken(),
    });
    setWrong(done.ok && !done.value.set);
    if (!done.ok || !done.value.set) return;
    setNew('');
    setAgain('');
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
      <NewPin label={t('shop.newPin')} pin={pin} again={again} onPin={setNew} onAgain={setAgain} off={off} />
      <Row>
        <LinkButton why={off ?? notYet} onPress={() => void put(pin)}>
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
