import type { ReactNode } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { MATERIAL_UNITS } from '#core/shared/materialUnits.ts';
import type { MaterialAmount, StagePlan } from '#core/shared/stagePlan.ts';
import { amountOf, hours, hoursRange } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import type { EstimateView } from '#core/shared/views/estimate.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import { Table } from '../../ui/Table.tsx';
import { withoutPrices } from './evidence.ts';
import { HandsCell, useHands } from './HandsCell.tsx';

/** Stages in the order of work with their hours, and what they use up. */
export function StageTable(props: { readonly jobId: JobId; readonly newest: EstimateView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const hands = useHands(props.jobId, props.newest);
  const { stages } = props.newest;
  const time = (s: StagePlan): ReactNode =>
    s.crew === 0 ? (
      <span className="cool">{t('estimate.unattended', { hours: hours(manner, s.dwellMin).value })}</span>
    ) : (
      <span className="num">
        {hours(manner, s.p50Min).value}
        <span className="unit">h</span>
        <span className="range">{hoursRange(manner, s.p20Min, s.p80Min)}</span>
      </span>
    );
  return (
    <>
      <Table<StagePlan>
        label={t('estimate.stages')}
        rowKey={(s) => s.kind}
        rows={stages}
        columns={[
          { key: 'stage', head: t('estimate.stage'), cell: (s) => t(`word.stage.${s.kind}`) },
          {
            key: 'panels',
            head: t('estimate.where'),
            cell: (s) => <span className="quiet">{t('estimate.onPanels', { n: s.panels.length })}</span>,
          },
          { key: 'people', head: t('estimate.hands'), cell: (s) => <HandsCell stage={s} hands={hands} /> },
          { key: 'hours', head: t('estimate.stageHours'), align: 'right', cell: time },
        ]}
      />
      {stages.some((s) => s.crew === 2) ? <p className="t1 quiet">{t('estimate.pairNote')}</p> : null}
      <Refusal refusal={hands.refusal} />
    </>
  );
}

/** Materials of all stages added up. */
export function MaterialTable(props: { readonly estimate: EstimateView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const sum = new Map<MaterialAmount['material'], number>();
  for (const stage of props.estimate.stages)
    for (const m of stage.materials) sum.set(m.material, (sum.get(m.material) ?? 0) + m.amount);
  return (
    <>
      <Head title={t('estimate.materials')} level={3} />
      {withoutPrices(props.estimate) ? <p className="t1 quiet">{t('estimate.noPrices')}</p> : null}
      <Table<MaterialAmount>
        label={t('estimate.materials')}
        headless
        rowKey={(m) => m.material}
        rows={[...sum].map(([material, amount]) => ({ material, amount }))}
        columns={[
          { key: 'material', head: t('estimate.material'), cell: (m) => t(`word.material.${m.material}`) },
          {
            key: 'amount',
            head: t('estimate.amount'),
            align: 'right',
            cell: (m) => amountText(amountOf(manner, MATERIAL_UNITS[m.material], m.amount)),
          },
        ]}
      />
    </>
  );
}
