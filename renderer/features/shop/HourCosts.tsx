import { type Dispatch, type ReactNode, type SetStateAction, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import { date } from '#core/shared/text/when.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { HourCostRow, StaffRow } from '#core/shared/views/people.ts';
import { type Command, useCommand } from '../../bridge/commands.ts';
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
  // One for both: what was refused is no longer so once the row that it stood beside is taken away.
  const set = useCommand('access.setHourCost');
  const [typed, type] = useState<Typed | null>(null);
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
            <CostTable person={person} rows={rows} set={set} onDropped={() => type(seenAnew)} />
          )}
          <NewCost person={person} rows={rows} set={set} typed={typed} onType={type} />
          <Caution>{t('access.cost.caution')}</Caution>
        </Stack>
      ) : null}
    </section>
  );
}

type Told = {
  readonly person: StaffRow;
  readonly rows: readonly HourCostRow[];
  readonly set: Command<'access.setHourCost'>;
};
/** What is being said, over what stood for its day when it was typed; undefined: whatever stands there now. */
type Typed = {
  readonly hourMinor: number | null;
  readonly fromDay: LocalDay | null;
  readonly overMinor: number | null | undefined;
};

function seenAnew(typed: Typed | null): Typed | null {
  return typed && { ...typed, overMinor: undefined };
}

function CostTable({ person, rows, set, onDropped }: Told & { readonly onDropped: () => void }): ReactNode {
  const t = useText();
  const manner = useManner();
  const today = useToday();
  async function drop({ fromDay, hourMinor }: HourCostRow): Promise<void> {
    const done = await set.run({ personId: person.id, fromDay, hourCostMinor: null, wasMinor: hourMinor });
    if (done.ok) onDropped();
  }
  const holds = (row: HourCostRow): string =>
    row.now ? t('access.cost.now') : row.fromDay > today ? t('access.cost.later') : '';
  return (
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
              onPress={() => void drop(row)}
            >
              {t('access.cost.drop')}
            </LinkButton>
          ),
        },
      ]}
    />
  );
}

type Saying = Told & {
  readonly typed: Typed | null;
  readonly onType: Dispatch<SetStateAction<Typed | null>>;
};

function NewCost({ person, rows, set, typed, onType }: Saying): ReactNode {
  const t = useText();
  const today = useToday();
  const stands = (day: LocalDay | null): number | null =>
    rows.find((row) => row.fromDay === day)?.hourMinor ?? null;
  // The first one holds for all hours there are; a later one is a raise.
  const offered = rows.length === 0 ? person.startedDay : today;
  const { hourMinor, fromDay, overMinor } = typed ?? {
    hourMinor: null,
    fromDay: offered,
    overMinor: undefined,
  };
  const lacks =
    hourMinor === null ? t('access.cost.needs') : fromDay === null ? t('access.cost.needsDay') : undefined;
  // What was asked about was another figure, or another day.
  function put(part: Partial<Typed>): void {
    set.clear();
    const next = { hourMinor, fromDay, ...part };
    onType({ ...next, overMinor: stands(next.fromDay) });
  }
  async function send(farMeant: boolean): Promise<void> {
    if (hourMinor === null || fromDay === null) return;
    const wasMinor = overMinor === undefined ? stands(fromDay) : overMinor;
    const asked = { personId: person.id, fromDay, hourCostMinor: hourMinor, wasMinor };
    const done = await set.run({ ...asked, farMeant });
    // What is typed since stays.
    if (done.ok) onType((now) => (now === typed ? null : seenAnew(now)));
    else if (done.refusal.code === 'STALE') onType(seenAnew);
  }
  return (
    <>
      <MoneyField
        label={t('access.cost.hour')}
        min={0}
        value={hourMinor}
        onChange={(minor) => put({ hourMinor: minor })}
      />
      <DayField
        label={t('access.cost.from')}
        note={t('access.cost.fromNote')}
        value={fromDay}
        onChange={(day) => put({ fromDay: day })}
      />
      <Refusal refusal={set.refusal} />
      <Row>
        <LinkButton why={lacks} busy={set.busy} onPress={() => void send(false)}>
          {t(stands(fromDay) !== null ? 'access.cost.change' : 'access.cost.add')}
        </LinkButton>
        {set.refusal?.code === 'HOUR_COST_FAR' ? (
          <LinkButton onPress={() => void send(true)}>{t('access.cost.meant')}</LinkButton>
        ) : null}
      </Row>
    </>
  );
}
