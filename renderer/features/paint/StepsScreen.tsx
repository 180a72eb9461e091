import { type ReactNode, useState } from 'react';
import type { StepRole } from '#core/shared/machineStep.ts';
import { count } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import type { StepView } from '#core/shared/views/paint.ts';
import { useMay } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { Column, Head, Place } from '../../ui/Layout.tsx';
import { Refusal, Waiting } from '../../ui/States.tsx';
import { type Column as Col, Table } from '../../ui/Table.tsx';
import css from './paint.module.css';
import { passText } from './StepFields.tsx';
import { StepForm } from './StepForm.tsx';

/** Machine steps as a screen of their own, for everybody. */
export function StepsScreen(): ReactNode {
  const t = useText();
  return (
    <Place label={t('steps.title')} columns="one">
      <Column>
        <Head level={1} title={t('steps.title')} />
        <Steps />
      </Column>
    </Place>
  );
}

/** Machine steps of the shop: with what, how fast, and how much film a pass takes, a default or its own measure. */
export function Steps(): ReactNode {
  const t = useText();
  const manner = useManner();
  const owner = useMay('owner');
  const steps = useQuery('paint.steps', {});
  const [chosen, setChosen] = useState<StepRole | null>(null);
  const step = steps.data?.find((s) => s.role === chosen);
  return (
    <>
      <p className="quiet">{t('steps.note')}</p>
      {steps.loading ? <Waiting /> : null}
      <Refusal refusal={steps.error} />
      <Table<StepView>
        label={t('steps.title')}
        rows={steps.data ?? []}
        rowKey={(s) => s.role}
        columns={stepColumns(t, manner)}
        selected={chosen}
        {...(owner ? { onSelect: (role: string) => setChosen(role as StepRole) } : {})}
      />
      {owner ? <p className={`t1 dusty ${css['below']}`}>{t('steps.hint')}</p> : null}
      {step ? <StepForm key={step.role} step={step} /> : null}
    </>
  );
}

function stepColumns(t: Say, manner: Manner): readonly Col<StepView>[] {
  return [
    { key: 'step', head: t('steps.step'), cell: (s) => <strong>{t(`estimate.step.${s.role}`)}</strong> },
    {
      key: 'with',
      head: t('steps.with'),
      cell: (s) => (
        <span className={css['whole']}>
          {[
            t(`card.machine.${s.machine}`),
            t('steps.padOf', { pad: t(`word.material.${s.pad}`), mm: s.padDiameterMm }),
            t(`word.material.${s.liquid}`),
          ].join(', ')}
        </span>
      ),
    },
    { key: 'speed', head: t('steps.speed'), align: 'right', cell: (s) => count(manner, s.speedRpm) },
    {
      key: 'pass',
      head: t('steps.pass'),
      align: 'right',
      cell: (s) => (s.tenthUmPerPass === null ? '–' : passText(s.tenthUmPerPass, manner)),
    },
    {
      key: 'from',
      head: t('steps.from'),
      cell: (s) => <span className={`${css['whole']} quiet`}>{fromText(s, t, manner)}</span>,
    },
  ];
}

function fromText(s: StepView, t: Say, manner: Manner): string {
  const whence =
    s.errorPerPass !== null
      ? t('steps.measured', { error: passText(s.errorPerPass, manner) })
      : t(s.own ? 'steps.own' : 'steps.default');
  return `${whence}, ${t('steps.spots', { n: s.spots })}`;
}
