import { type ReactNode, useState } from 'react';
import { hasEnded } from '#core/shared/ended.ts';
import type { BayId } from '#core/shared/ids.ts';
import { dayOf } from '#core/shared/text/when.ts';
import { instantOf } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { BaysSetupView, ClosureView } from '#core/shared/views/baysSetup.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useManner, useText, useToday } from '../../bridge/texts.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Select } from '../../ui/Select.tsx';
import { AddForm, ListAndForm, type Listed } from './ListAndForm.tsx';

/** Days on which the shop, or one place of it, is closed. */
export function Closures(props: { readonly setup: BaysSetupView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const drop = useCommand('bays.dropClosure');
  const off = useMay('owner') ? undefined : t('shop.onlyOwner');
  const { closures, bays } = props.setup;
  const where = (bayId: BayId | null): string =>
    bays.find((bay) => bay.bayId === bayId)?.name ?? t('shop.away.wholeShop');
  const said = (day: LocalDay): string => dayOf(manner, instantOf(day, 720, manner.zone), Date.now());
  const days = (from: LocalDay, to: LocalDay): string =>
    from === to ? said(from) : `${said(from)} – ${said(to)}`;
  const today = useToday();
  const listed = (c: ClosureView): Listed => ({
    key: c.id,
    what: days(c.fromDay, c.toDay),
    about: [where(c.bayId), c.reason].filter(Boolean).join(', '),
    onTakeBack: () => void drop.run({ id: c.id }),
  });
  return (
    <ListAndForm
      title={t('shop.away.closed')}
      none={t('shop.away.noneClosed')}
      rows={closures.filter((c) => c.toDay >= today).map(listed)}
      past={closures.filter((c) => c.toDay < today).map(listed)}
      off={off}
      refusal={drop.refusal}
    >
      <NewClosure setup={props.setup} off={off} />
    </ListAndForm>
  );
}

const WHOLE = 'whole';

function NewClosure(props: { readonly setup: BaysSetupView; readonly off: string | undefined }): ReactNode {
  const t = useText();
  const { off } = props;
  const today = useToday();
  const add = useCommand('bays.addClosure');
  const [fromDay, setFrom] = useState<LocalDay | null>(null);
  const [toDay, setTo] = useState<LocalDay | null>(null);
  const [where, setWhere] = useState<BayId | typeof WHOLE>(WHOLE);
  const [reason, setReason] = useState('');
  async function put(): Promise<void> {
    if (!fromDay) return;
    const bayId = where === WHOLE ? null : where;
    const done = await add.run({ fromDay, toDay: toDay ?? fromDay, bayId, reason });
    if (!done.ok) return;
    setFrom(null);
    setTo(null);
    setReason('');
  }
  const places = props.setup.bays.filter((bay) => !hasEnded(bay, today));
  return (
    <AddForm
      wide
      add={t('shop.away.close')}
      why={off ?? (fromDay ? undefined : t('shop.away.needsDay'))}
      busy={add.busy}
      refusal={add.refusal}
      onAdd={() => void put()}
    >
      <DayField label={t('shop.away.from')} value={fromDay} onChange={setFrom} off={off} />
      <DayField label={t('shop.away.to')} value={toDay} onChange={setTo} off={off} />
      <Select<BayId | typeof WHOLE>
        label={t('shop.away.where')}
        options={[
          { value: WHOLE, label: t('shop.away.wholeShop') },
          ...places.map((bay) => ({ value: bay.bayId, label: bay.name })),
        ]}
        value={where}
        onChange={setWhere}
        off={off}
      />
      <TextField label={t('shop.away.why')} value={reason} maxLength={120} onChange={setReason} off={off} />
    </AddForm>
  );
}
