import { type ReactNode, useState } from 'react';
import type { PersonId } from '#core/shared/ids.ts';
import { when } from '#core/shared/text/when.ts';
import { addLocalDays, minuteOf } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { BaysSetupView } from '#core/shared/views/baysSetup.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './shop.module.css';

const MINUTE_MS = 60_000;

/** Who is away when; from the first minute of a day to the last of another. */
export function Absences(props: { readonly setup: BaysSetupView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const people = useQuery('access.people', {});
  const drop = useCommand('bays.dropAbsence');
  const off = useMay('desk') ? undefined : t('shop.onlyDesk');
  const said = (min: number): string => when(manner, min * MINUTE_MS, Date.now());
  return (
    <>
      <Head level={3} title={t('shop.away.people')} />
      {props.setup.absences.length === 0 ? <p className="t1 quiet">{t('shop.away.nobodyAway')}</p> : null}
      <List label={t('shop.away.people')}>
        {props.setup.absences.map((a) => (
          <Item key={a.id}>
            <span className={css['awayRow']}>
              <span>{`${said(a.startMin)} – ${said(a.endMin)}`}</span>
              <span className="quiet cut">
                {[people.data?.find((p) => p.id === a.personId)?.name, a.reason].filter(Boolean).join(', ')}
              </span>
              <LinkButton quiet why={off} onPress={() => void drop.run({ id: a.id })}>
                {t('shop.away.takeBack')}
              </LinkButton>
            </span>
          </Item>
        ))}
      </List>
      <Refusal refusal={drop.refusal} />
      <NewAbsence off={off} />
    </>
  );
}

function NewAbsence(props: { readonly off: string | undefined }): ReactNode {
  const t = useText();
  const { zone } = useManner();
  const { off } = props;
  const people = useQuery('access.people', {});
  const add = useCommand('bays.addAbsence');
  const [personId, setPerson] = useState<PersonId | null>(null);
  const [fromDay, setFrom] = useState<LocalDay | null>(null);
  const [toDay, setTo] = useState<LocalDay | null>(null);
  const [reason, setReason] = useState('');
  async function put(): Promise<void> {
    if (!fromDay || !personId) return;
    const startMin = minuteOf(fromDay, 0, zone);
    const endMin = minuteOf(addLocalDays(toDay ?? fromDay, 1), 0, zone);
    const done = await add.run({ personId, startMin, endMin, reason });
    if (!done.ok) return;
    setFrom(null);
    setTo(null);
    setReason('');
  }
  const staff = people.data?.filter((p) => p.endedDay === null) ?? [];
  return (
    <>
      <div className={css['awayForm']}>
        <DayField label={t('shop.away.firstDay')} value={fromDay} onChange={setFrom} off={off} />
        <DayField label={t('shop.away.lastDay')} value={toDay} onChange={setTo} off={off} />
        <Select
          label={t('shop.away.who')}
          options={staff.map((p) => ({ value: p.id, label: p.name }))}
          value={personId}
          onChange={setPerson}
          off={off}
        />
        <TextField
          label={t('shop.away.reason')}
          value={reason}
          maxLength={120}
          onChange={setReason}
          off={off}
        />
        <Button
          why={off ?? (fromDay && personId ? undefined : t('shop.away.needsWho'))}
          busy={add.busy}
          onPress={() => void put()}
        >
          {t('shop.away.add')}
        </Button>
      </div>
      <Refusal refusal={add.refusal} />
    </>
  );
}
