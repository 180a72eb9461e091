import { type ReactNode, useState } from 'react';
import { useHost } from '../../bridge/client.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../Button.tsx';
import { Head } from '../Layout.tsx';
import { Table } from '../Table.tsx';
import { type ChartTable, csvOf } from './csv.ts';

type Line = { readonly key: string; readonly cells: readonly (string | number)[] };

/** A chart with its heading; its figures stand behind it as a table and as CSV. */
export function ChartBox(props: {
  readonly title: string;
  readonly note?: ReactNode;
  readonly table: ChartTable;
  readonly fileName: string;
  readonly children: ReactNode;
}): ReactNode {
  const t = useText();
  const host = useHost();
  const [asTable, setAsTable] = useState(false);
  const { table } = props;
  function save(): void {
    const bytes = new TextEncoder().encode(csvOf(table));
    void host.save({ fileName: `${props.fileName}.csv`, mime: 'text/csv', bytes });
  }
  return (
    <section aria-label={props.title}>
      <Head title={props.title} note={props.note}>
        {asTable ? (
          <LinkButton quiet onPress={save}>
            {t('ui.chart.csv')}
          </LinkButton>
        ) : null}
        <LinkButton quiet onPress={() => setAsTable(!asTable)}>
          {asTable ? t('ui.chart.picture') : t('ui.chart.table')}
        </LinkButton>
      </Head>
      {asTable ? (
        <Table<Line>
          label={props.title}
          rows={table.rows.map((cells, i) => ({ key: String(i), cells }))}
          rowKey={(row) => row.key}
          columns={table.columns.map((head, i) => ({
            key: head,
            head,
            cell: (row: Line) => row.cells[i],
            ...(typeof table.rows[0]?.[i] === 'number' ? { align: 'right' as const } : {}),
          }))}
        />
      ) : (
        props.children
      )}
    </section>
  );
}
