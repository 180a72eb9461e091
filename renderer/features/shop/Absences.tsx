import { type ReactNode, useState } from 'react';
import { hasEnded } from '#core/shared/ended.ts';
import type { PersonId } from '#core/shared/ids.ts';
import { addLocalDays, minuteOf } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { AbsenceView, BaysSetupView } from '#core/shared/views/baysSetup.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText, useToday } from '../../bridge/texts.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Select } from '../../ui/Select.tsx';
import { AddForm, ListAndForm, type Listed } from './ListAndForm.tsx';
import { spanText } from './spanText.ts';

const MINUTE_MS = 60_000;

/** Who is away when; from the first minute of a day to the last of another. */
export function Absences(props: { readonly setup: BaysSetupView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const people = useQuery('access.people', {});
  const drop = useCommand('bays.dropAbsence');
  const off = useMay('desk') ? undefined : t('shop.onlyDesk');
  const nameOf = (id: PersonId): string | undefined => people.data?.find((p) => p.id === id)?.name;
  const { absences } = props.setup;
  const nowMin = Date.now() / MINUTE_MS;
  const listed = (a: AbsenceView): Listed => ({
    key: a.id,
    what: spanText(manner, a.startMin, a.endMin, Date.now()),
    about: [nameOf(a.personId), a.reason].filter(Boolean).join(', '),
    onTakeBack: () => void drop.run({ id: a.id }),
  });
  return (
    <ListAndForm
      title={t('shop.away.people')}
      none={t('shop.away.nobodyAway')}
      rows={absences.filter((a) => a.endMin > nowMin).map(listed)}
      past={absences.filter((a) => a.endMin <= nowMin).map(listed)}
      off={off}
      refusal={drop.refusal}
    >
      <NewAbsence off={off} />
    </ListAndForm>
  );
}

function NewAbsence(props: { readonly off: string | undefined }): ReactNode {
  const t = useText();
  const { zone } = useManner();
  const today = useToday();
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
  const staff = people.data?.filter((p) => !hasEnded(p, today)) ?? [];
  return (
    <AddForm
      wide
      add={t('shop.away.add')}
      why={off ?? (fromDay && personId ? undefined : t('shop.away.needsWho'))}
      busy={add.busy}
      refusal={add.refusal}
      onAdd={() => void put()}
    >
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
    </AddForm>
  );
}
