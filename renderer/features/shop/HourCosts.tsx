import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import { date } from '#core/shared/text/when.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { HourCostRow, StaffRow } from '#core/shared/views/people.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText, useToday } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { Head, Row, Stack } from '../../ui/Layout.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import { Caution, Refusal } from '../../ui/States.tsx';
import { Table } from '../../ui/Table.tsx';

/** What an hour of somebody costs the shop, by the day from which it does. For owners. */
export function HourCosts(props: { readonly person: StaffRow }): ReactNode {
  const t = useText();
  const { person } = props;
  const asked = useQuery('access.hourCosts', {}, { keep: true });
  const rows = asked.data?.filter((row) => row.personId === person.id) ?? [];
  return (
    <section aria-label={t('access.cost')}>
      <Head level={3} title={t('access.cost')} note={t('access.cost.note')} />
      <Refusal refusal={asked.error} />
      {asked.data ? (
        <Stack gap={1}>
          {rows.length === 0 ? (
            <p className="t1 quiet">{t('access.cost.none', { name: person.name })}</p>
          ) : (
            <CostTable person={person} rows={rows} />
          )}
          <NewCost person={person} rows={rows} />
          <Caution>{t('access.cost.caution')}</Caution>
        </Stack>
      ) : null}
    </section>
  );
}

type Told = { readonly person: StaffRow; readonly rows: readonly HourCostRow[] };

function CostTable({ person, rows }: Told): ReactNode {
  const t = useText();
  const manner = useManner();
  const today = useToday();
  const set = useCommand('access.setHourCost');
  const drop = ({ fromDay, hourMinor }: HourCostRow): void =>
    void set.run({ personId: person.id, fromDay, hourCostMinor: null, wasMinor: hourMinor });
  const holds = (row: HourCostRow): string =>
    row.now ? t('access.cost.now') : row.fromDay > today ? t('access.cost.later') : '';
  return (
    <>
      <Table<HourCostRow>
        label={t('access.cost')}
        rows={rows}
        rowKey={(row) => row.fromDay}
        columns={[
          { key: 'from', head: t('access.cost.from'), cell: (row) => date(manner, row.fromDay) },
          { key: 'now', head: '', cell: holds },
          {
            key: 'cost',
            head: t('access.cost.amount'),
            align: 'right',
            cell: (row) => money(manner, row.hourMinor),
          },
          {
            key: 'drop',
            head: '',
            align: 'right',
            cell: (row) => (
              <LinkButton
                quiet
                busy={set.busy}
                label={t('access.cost.dropOf', { day: date(manner, row.fromDay) })}
                onPress={() => drop(row)}
              >
                {t('access.cost.drop')}
              </LinkButton>
            ),
          },
        ]}
      />
      <Refusal refusal={set.refusal} />
    </>
  );
}

function NewCost({ person, rows }: Told): ReactNode {
  const t = useText();
  const today = useToday();
  const set = useCommand('access.setHourCost');
  const [hourMinor, setHour] = useState<number | null>(null);
  const [chosen, setDay] = useState<LocalDay | null | undefined>(undefined);
  // The first one holds for all hours there are; a later one is a raise.
  const fromDay = chosen === undefined ? (rows.length === 0 ? person.startedDay : today) : chosen;
  const stood = rows.find((row) => row.fromDay === fromDay);
  const lacks =
    hourMinor === null ? t('access.cost.needs') : fromDay === null ? t('access.cost.needsDay') : undefined;
  async function put(farMeant: boolean): Promise<void> {
    if (hourMinor === null || fromDay === null) return;
    const wasMinor = stood?.hourMinor ?? null;
    const asked = { personId: person.id, fromDay, hourCostMinor: hourMinor, wasMinor };
    const done = await set.run({ ...asked, farMeant });
    if (!done.ok) return;
    setHour(null);
    setDay(undefined);
  }
  return (
    <>
      <MoneyField label={t('access.cost.hour')} min={0} value={hourMinor} onChange={setHour} />
      <DayField
        label={t('access.cost.from')}
        note={t('access.cost.fromNote')}
        value={fromDay}
        onChange={setDay}
      />
      <Refusal refusal={set.refusal} />
      <Row>
        <LinkButton why={lacks} busy={set.busy} onPress={() => void put(false)}>
          {t(stood ? 'access.cost.change' : 'access.cost.add')}
        </LinkButton>
        {set.refusal?.code === 'HOUR_COST_FAR' ? (
          <LinkButton onPress={() => void put(true)}>{t('access.cost.meant')}</LinkButton>
        ) : null}
      </Row>
    </>
  );
}
