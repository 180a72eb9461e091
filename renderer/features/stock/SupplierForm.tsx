import { type ReactNode, useState } from 'react';
import { dayText, weekday } from '#core/shared/text/when.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Check } from '../../ui/Choice.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Head } from '../../ui/Layout.tsx';
import { MoneyField, NumberField } from '../../ui/NumberFields.tsx';
import css from './stock.module.css';

/** A supplier as it is being typed. */
export type SupplierDraft = {
  readonly name: string;
  readonly email: string;
  readonly leadDays: number | null;
  readonly minOrderMinor: number | null;
  readonly openWeekdays: readonly number[];
  readonly closedDays: readonly LocalDay[];
};
export const BLANK_SUPPLIER: SupplierDraft = {
  name: '',
  email: '',
  leadDays: 3,
  minOrderMinor: null,
  openWeekdays: [1, 2, 3, 4, 5],
  closedDays: [],
};

/** What is sent; a lead time or smallest order that is not said is none. */
export function sentSupplier(draft: SupplierDraft) {
  return {
    ...draft,
    leadDays: draft.leadDays ?? 0,
    minOrderMinor: draft.minOrderMinor ?? 0,
    openWeekdays: [...draft.openWeekdays],
    closedDays: [...draft.closedDays],
  };
}

type Part = { readonly draft: SupplierDraft; readonly set: (part: Partial<SupplierDraft>) => void };

/** Everything that is written down of a supplier, for a new one and to change one. */
export function SupplierFields(props: Part): ReactNode {
  const t = useText();
  const { draft, set } = props;
  return (
    <>
      <TextField
        label={t('stock.ui.name')}
        value={draft.name}
        onChange={(name) => set({ name })}
        maxLength={120}
      />
      <TextField
        label={t('stock.ui.email')}
        kind="email"
        value={draft.email}
        onChange={(email) => set({ email })}
        maxLength={200}
      />
      <NumberField
        label={t('stock.ui.supplierLead')}
        value={draft.leadDays}
        onChange={(leadDays) => set({ leadDays })}
        min={0}
        max={365}
      />
      <MoneyField
        label={t('stock.ui.supplierMinimum')}
        value={draft.minOrderMinor}
        onChange={(minOrderMinor) => set({ minOrderMinor })}
        min={0}
      />
      <Weekdays {...props} />
      <ShutDays {...props} />
    </>
  );
}

const WEEKDAYS = [1, 2, 3, 4, 5, 6, 7] as const;
/** The first of January 2024 was a Monday. */
export const noonOf = (day: number): number => Date.UTC(2024, 0, day, 12);

function Weekdays({ draft, set }: Part): ReactNode {
  const t = useText();
  const manner = useManner();
  const turn = (day: number, works: boolean): void =>
    set({
      openWeekdays: WEEKDAYS.filter((d) => (d === day ? works : draft.openWeekdays.includes(d))),
    });
  return (
    <>
      <Head level={3} title={t('stock.ui.supplierWorks')} />
      <div className={css['weekdays']}>
        {WEEKDAYS.map((day) => (
          <Check
            key={day}
            label={weekday({ ...manner, zone: 'UTC' }, noonOf(day))}
            value={draft.openWeekdays.includes(day)}
            onChange={(works) => turn(day, works)}
          />
        ))}
      </div>
    </>
  );
}

function ShutDays({ draft, set }: Part): ReactNode {
  const t = useText();
  const manner = useManner();
  const [day, setDay] = useState<LocalDay | null>(null);
  const add = (): void => {
    if (day && !draft.closedDays.includes(day)) set({ closedDays: [...draft.closedDays, day].sort() });
    setDay(null);
  };
  return (
    <>
      <Head level={3} title={t('stock.ui.supplierShut')} />
      {draft.closedDays.map((shut) => (
        <span key={shut} className={css['acts']}>
          {dayText(manner, shut)}
          <LinkButton
            quiet
            label={t('stock.ui.openAgain', { day: dayText(manner, shut) })}
            onPress={() => set({ closedDays: draft.closedDays.filter((d) => d !== shut) })}
          >
            {t('stock.ui.takeOff')}
          </LinkButton>
        </span>
      ))}
      <DayField label={t('stock.ui.shutOn')} value={day} onChange={setDay} />
      <LinkButton why={day ? undefined : t('stock.ui.shutFirst')} onPress={add}>
        {t('stock.ui.addShut')}
      </LinkButton>
    </>
  );
}
