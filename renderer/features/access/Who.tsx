import { type ReactNode, useState } from 'react';
import { inOrder } from '#core/shared/text/inOrder.ts';
import type { HerePerson } from '#core/shared/views/people.ts';
import { useCommand } from '../../bridge/commands.ts';
import { newToken } from '../../bridge/newToken.ts';
import { useQuery } from '../../bridge/queries.ts';
import { sessionLapsed, sessionToken, setSessionToken } from '../../bridge/session.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton, LinkTo } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { go, queryOf, usePath } from '../../ui/router.ts';
import { Empty, Refusal } from '../../ui/States.tsx';
import css from './access.module.css';

/** Where one goes on after signing in: back to the screen that asked for it by `?back=`, else to the day's work. */
function goesOn(path: string): string {
  const back = queryOf(path).get('back') ?? '';
  return back.startsWith('/') ? back : '/desk';
}

/** Who is here: pick a name, type the PIN if there is one. */
export function Who(): ReactNode {
  const t = useText();
  const path = usePath();
  const here = useQuery('access.here', {});
  const { enter, leave, said, clear, busy, refusal } = useSigningIn();
  const [asked, setAsked] = useState<HerePerson | null>(null);
  const me = here.data?.me ?? null;
  const { region } = useManner();
  const people = inOrder(region, here.data?.people ?? []);
  function pick(person: HerePerson): void {
    clear();
    if (person.hasPin) setAsked(person);
    else void enter(person);
  }
  return (
    <Place label={t('access.title')}>
      <div className={css['middle']}>
        <Head level={1} title={t('access.title')} note={me ? t('access.now', { name: me.name }) : undefined}>
          {me ? <LinkTo to={goesOn(path)}>{t('access.stay')}</LinkTo> : null}
        </Head>
        <Stack>
          {me || !sessionLapsed() ? null : <p className="quiet">{t('access.lapsed')}</p>}
          <Refusal refusal={here.error ?? refusal} />
          {here.data && people.length === 0 ? (
            <Empty title={t('access.nobody')} text={t('access.nobodyText')} />
          ) : null}
          <People people={people} asked={asked} onPick={pick} />
          {asked ? (
            <PinForm
              key={asked.id}
              person={asked}
              said={said}
              busy={busy}
              onPin={(pin) => void enter(asked, pin)}
              onBack={() => setAsked(null)}
            />
          ) : null}
          {me ? (
            <Row>
              <LinkButton onPress={() => void leave()}>{t('access.leave', { name: me.name })}</LinkButton>
            </Row>
          ) : null}
        </Stack>
      </div>
    </Place>
  );
}

/** Signing in and out at this window; what was said of a wrong PIN stands until somebody else is picked. */
function useSigningIn() {
  const t = useText();
  const signIn = useCommand('access.signIn');
  const signOut = useCommand('access.signOut');
  const [said, setSaid] = useState<string | null>(null);
  async function enter(person: HerePerson, pin?: string): Promise<void> {
    const token = newToken();
    const before = sessionToken();
    const done = await signIn.run({ personId: person.id, token, ...(pin ? { pin } : {}) });
    if (!done.ok) return;
    if (!done.value.signedIn) {
      const { waitSec, triesLeft } = done.value;
      setSaid(waitSec > 0 ? t('access.wait', { seconds: waitSec }) : t('access.wrong', { triesLeft }));
      return;
    }
    setSessionToken(token);
    if (before) void signOut.run({ token: before });
    const here = location.hash.slice(1);
    if (here.startsWith('/who')) go(goesOn(here), 'replace');
  }
  async function leave(): Promise<void> {
    const token = sessionToken();
    if (token) await signOut.run({ token });
    setSessionToken(null);
  }
  return { enter, leave, said, clear: () => setSaid(null), busy: signIn.busy, refusal: signIn.refusal };
}

function People(props: {
  readonly people: readonly HerePerson[];
  readonly asked: HerePerson | null;
  readonly onPick: (person: HerePerson) => void;
}): ReactNode {
  const t = useText();
  return (
    <List label={t('access.title')}>
      {props.people.map((person) => (
        <Item key={person.id} selected={person.id === props.asked?.id} onPress={() => props.onPick(person)}>
          <span className={css['row']}>
            <span className="cut">{person.name}</span>
            <span className="quiet">{t(`word.role.${person.role}`)}</span>
            <span className="t1 dusty">{person.hasPin ? t('access.hasPin') : null}</span>
          </span>
        </Item>
      ))}
    </List>
  );
}

function PinForm(props: {
  readonly person: HerePerson;
  readonly said: string | null;
  readonly busy: boolean;
  readonly onPin: (pin: string) => void;
  readonly onBack: () => void;
}): ReactNode {
  const t = useText();
  const [pin, setPin] = useState('');
  return (
    <form
      onSubmit={(e) => {
        e.preventDefault();
        props.onPin(pin);
      }}
    >
      <Stack>
        <TextField
          label={t('access.pinOf', { name: props.person.name })}
          value={pin}
          onChange={setPin}
          secret
          autoFocus
          maxLength={12}
          error={props.said ?? undefined}
        />
        <Row>
          <Button kind="go" busy={props.busy} onPress={() => props.onPin(pin)}>
            {t('access.enter')}
          </Button>
          <LinkButton onPress={props.onBack}>{t('access.other')}</LinkButton>
        </Row>
      </Stack>
    </form>
  );
}
