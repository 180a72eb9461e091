import { type ReactNode, useEffect, useRef, useState } from 'react';
import { count } from '#core/shared/text/format.ts';
import { JOB_LISTS, type JobList, type JobRow, type JobSort } from '#core/shared/views/jobList.ts';
import { useSureNow } from '../../bridge/promises.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Words } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Column, Foot, Head, Place } from '../../ui/Layout.tsx';
import { go } from '../../ui/router.ts';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { useShortcuts } from '../../ui/shortcuts.ts';
import { Table } from '../../ui/Table.tsx';
import { jobColumns } from './jobColumns.tsx';
import css from './jobs.module.css';

const PAGE = 60;
const SORT: Readonly<Record<JobList, JobSort>> = {
  open: 'promise',
  quoted: 'number',
  finished: 'number',
  toBill: 'number',
  unpaid: 'number',
  ended: 'number',
};

/** Every job: lists, one field to find any, a page at a time; behind the end of one that grew shorter, its first. Enter opens the chosen one. */
export function Jobs(): ReactNode {
  const t = useText();
  const [list, setList] = useState<JobList>('open');
  const [search, setSearch] = useState('');
  const [offset, setOffset] = useState(0);
  const [selected, setSelected] = useState<string | null>(null);
  const everywhere = search.trim() !== '';
  const jobs = useQuery(
    'bookings.jobs',
    { list: everywhere ? null : list, search, sort: SORT[list], offset, limit: PAGE },
    { keep: true },
  );
  const page = jobs.data;
  if (page && !jobs.asking && offset > 0 && offset >= page.total) setOffset(0);
  const top = useRef<HTMLDivElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: other rows are read from their first one
  useEffect(() => {
    top.current?.scrollIntoView({ block: 'end' });
  }, [offset]);
  return (
    <Place label={t('ui.place.jobs')} columns="one">
      <Column>
        <Head level={1} title={t('jobs.title')} note={page ? t('jobs.found', { total: page.total }) : null}>
          <LinkTo to="/take-in?next">{t('desk.takeCall')}</LinkTo>
        </Head>
        <div ref={top} className={css['tools']}>
          <TextField
            label={t('jobs.search')}
            hint={t('jobs.searchHint')}
            value={search}
            onChange={(typed) => {
              setSearch(typed);
              setOffset(0);
            }}
            kind="search"
            maxLength={120}
          />
          <Words
            label={t('jobs.list')}
            value={everywhere ? null : list}
            onChange={(next) => {
              setList(next);
              setSearch('');
              setOffset(0);
            }}
            options={JOB_LISTS.map((value) => ({
              value,
              label: t(`jobs.list.${value}`),
              count: page?.counts[value],
            }))}
          />
        </div>
        <Refusal refusal={jobs.error} />
        {page ? <Rows rows={page.rows} selected={selected} onSelect={setSelected} /> : null}
        {jobs.loading ? <Waiting /> : null}
        {page && page.total > PAGE ? <Pages offset={offset} total={page.total} onTurn={setOffset} /> : null}
      </Column>
    </Place>
  );
}

/** Which rows of a long list are shown, and the way to the rows before and after; Page Up and Page Down turn too. */
function Pages(props: {
  readonly offset: number;
  readonly total: number;
  readonly onTurn: (offset: number) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { offset, total, onTurn } = props;
  const last = Math.min(total, offset + PAGE);
  const back = (): void => onTurn(Math.max(0, offset - PAGE));
  const on = (): void => onTurn(last < total ? offset + PAGE : offset);
  useShortcuts({ PageUp: back, PageDown: on });
  return (
    <Foot>
      <LinkButton why={offset === 0 ? t('jobs.firstRows') : undefined} onPress={back}>
        {t('jobs.pageBack')}
      </LinkButton>
      <span className="num quiet">
        {t('jobs.page', {
          from: count(manner, offset + 1),
          to: count(manner, last),
          total: count(manner, total),
        })}
      </span>
      <LinkButton why={last >= total ? t('jobs.lastRows') : undefined} onPress={on}>
        {t('jobs.pageOn')}
      </LinkButton>
    </Foot>
  );
}

function Rows(props: {
  readonly rows: readonly JobRow[];
  readonly selected: string | null;
  readonly onSelect: (id: string) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const sureNow = useSureNow(props.rows.some((row) => row.promisedPpm !== null));
  const columns = jobColumns(t, manner, sureNow);
  if (props.rows.length === 0) return <Empty title={t('jobs.none')} text={t('jobs.noneText')} />;
  return (
    <Table
      label={t('jobs.title')}
      columns={columns}
      rows={props.rows}
      rowKey={(row) => row.id}
      selected={props.selected}
      onSelect={props.onSelect}
      onOpen={(id) => go(`/jobs/${id}`)}
      lit={(row) => row.late}
    />
  );
}
