import type { ReactNode } from 'react';
import { count, range } from '#core/shared/text/format.ts';
import { isTextKey } from '#core/shared/text/say.ts';
import type { FactorView } from '#core/shared/views/estimate.ts';
import { useQuery } from '../../bridge/queries.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Refusal, Waiting } from '../../ui/States.tsx';
import { Table } from '../../ui/Table.tsx';
import css from './figures.module.css';

type Named = { readonly name: string; readonly kind: string };

/** A factor's name and what it is one of: a stage and a kind of job may have the same word. */
function namedOf(t: Say, people: ReadonlyMap<string, string>, factor: FactorView): Named {
  const { what, of } = factor;
  if (what === 'shop') return { name: t('figures.factor.shop'), kind: '' };
  if (what === 'job') return { name: t('figures.factor.job'), kind: '' };
  if (what === 'technician')
    return { name: people.get(of) ?? t('figures.factor.left'), kind: t('figures.factorOf.technician') };
  const kinds = [
    [`word.stage.${of}`, 'figures.factorOf.stage'],
    [`figures.condition.${of}`, 'figures.factorOf.found'],
    [`jobs.purpose.${of}`, 'figures.factorOf.job'],
  ] as const;
  const found = kinds.find(([key]) => isTextKey(key) && (what === 'stage') === key.startsWith('word.stage.'));
  return found && isTextKey(found[0]) ? { name: t(found[0]), kind: t(found[1]) } : { name: of, kind: '' };
}

function Name({ name, kind }: Named): ReactNode {
  return (
    <span className={css['factorName']} title={name}>
      {name} <span className="t1 dusty">{kind}</span>
    </span>
  );
}

/** What the next estimate multiplies its minutes by, each with the range it is known to and how much it was learned from. */
export function Factors(): ReactNode {
  const t = useText();
  const manner = useManner();
  const view = useQuery('estimate.learning', { rows: 0 });
  const people = useQuery('access.people', {});
  const names = new Map<string, string>(people.data?.map((p) => [p.id, p.name]));
  const factors = view.data?.factors ?? [];
  return (
    <section aria-label={t('figures.factors')}>
      <Head
        title={t('figures.factors')}
        note={
          view.data
            ? t('figures.factorsNote', {
                stages: view.data.stagesSeen,
                jobs: view.data.jobsSeen,
              })
            : undefined
        }
      />
      <Refusal refusal={view.error} />
      {view.loading ? <Waiting /> : null}
      {view.data ? (
        <Table<FactorView>
          label={t('figures.factors')}
          rows={factors}
          rowKey={(f) => `${f.what}/${f.of}`}
          columns={[
            { key: 'what', head: t('figures.factor'), cell: (f) => <Name {...namedOf(t, names, f)} /> },
            {
              key: 'times',
              head: t('figures.factorTimes'),
              align: 'right',
              cell: (f) => `× ${count(manner, f.factor, 2)}`,
            },
            {
              key: 'range',
              head: t('figures.factorRange'),
              align: 'right',
              cell: (f) => range(count(manner, f.low, 2), count(manner, f.high, 2)),
            },
            { key: 'n', head: t('figures.factorFrom'), align: 'right', cell: (f) => count(manner, f.n) },
          ]}
        />
      ) : null}
    </section>
  );
}
