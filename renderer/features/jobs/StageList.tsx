import { type ReactNode, useState } from 'react';
import { amountOf } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import type { JobView, StageView } from '#core/shared/views/bookings.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Empty } from '../../ui/States.tsx';
import { Table } from '../../ui/Table.tsx';
import { StageDetails } from './StageDetails.tsx';
import { stageColumns } from './stageColumns.tsx';

/** Stages in the order of work: planned against worked, where and by whom; the chosen one opened; then materials. */
export function StageList(props: { readonly job: JobView }): ReactNode {
  const t = useText();
  const { job } = props;
  const manner = useManner();
  const [chosen, setChosen] = useState<string | null>(null);
  const stage = job.stages.find((s) => s.id === chosen);
  const over = job.state === 'cancelled' || job.state === 'noShow';
  if (job.stages.length === 0 && over) return null;
  if (job.stages.length === 0) return <Empty title={t('jobs.noStages')} text={t('jobs.noStagesText')} />;
  return (
    <>
      <Table
        label={t('card.stages')}
        columns={stageColumns(t, manner)}
        rows={job.stages}
        rowKey={(s) => s.id}
        selected={chosen}
        onSelect={(id) => setChosen(id === chosen ? null : id)}
        lit={(s) => s.crew > 0 && s.attendedMs > s.p80Min * 60_000}
      />
      {stage ? (
        <StageDetails key={stage.id} job={job} stage={stage} />
      ) : (
        <p className="t1 dusty">{t('jobs.stageHint')}</p>
      )}
      <Materials stages={job.stages} />
    </>
  );
}

type Sum = {
  readonly key: string;
  readonly name: string;
  readonly planned: string;
  readonly used: string;
  readonly noItem: boolean;
};

function Materials(props: { readonly stages: readonly StageView[] }): ReactNode {
  const t = useText();
  const manner = useManner();
  const all = props.stages.flatMap((s) => s.materials);
  const rows = [...new Set(all.map((m) => m.material))].map((material): Sum => {
    const of = all.filter((m) => m.material === material);
    const unit = of[0]?.unit ?? 'piece';
    const used = of.some((m) => m.used !== null) ? of.reduce((n, m) => n + (m.used ?? 0), 0) : null;
    return {
      key: material,
      name: t(`word.material.${material}`),
      planned: amountText(
        amountOf(
          manner,
          unit,
          of.reduce((n, m) => n + m.planned, 0),
        ),
      ),
      used: used === null ? '–' : amountText(amountOf(manner, unit, used)),
      noItem: of.some((m) => m.noItem > 0),
    };
  });
  if (rows.length === 0) return null;
  return (
    <section>
      <Head level={2} title={t('jobs.draws')} />
      <Table
        label={t('jobs.draws')}
        rows={rows}
        rowKey={(r) => r.key}
        columns={[
          { key: 'name', head: t('jobs.material'), cell: (r) => <MaterialName of={r} /> },
          { key: 'planned', head: t('jobs.planned'), align: 'right', cell: (r) => r.planned },
          { key: 'used', head: t('jobs.used'), align: 'right', cell: (r) => r.used },
        ]}
      />
    </section>
  );
}

/** A material by name; where some of it is in no ledger, that and the way to an item. */
function MaterialName(props: { readonly of: Sum }): ReactNode {
  const t = useText();
  const { key, name, noItem } = props.of;
  if (!noItem) return name;
  return (
    <>
      {name}{' '}
      <span className="t1 lamp">
        {t('jobs.noItem')} <LinkTo to={`/stock/new?material=${key}`}>{t('jobs.addItem')}</LinkTo>
      </span>
    </>
  );
}
