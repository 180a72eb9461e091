import type { ReactNode } from 'react';
import { hours, money } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import type { MoneyFiguresView } from '#core/shared/views/figuresMoney.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Head } from '../../ui/Layout.tsx';
import css from './figures.module.css';

const AGES = ['notDue', 'upTo30', 'upTo60', 'upTo90', 'older'] as const;

type Fact = {
  readonly key: string;
  readonly label: string;
  readonly value: string;
  readonly lit: boolean;
};

/** What is owed by age and held now; what redone work cost; how many customers came again. */
export function MoneyNow(props: {
  readonly view: MoneyFiguresView;
  readonly busy: boolean;
  readonly onCsv: () => void;
}): ReactNode {
  const t = useText();
  const facts = useFacts(props.view);
  return (
    <section aria-label={t('figures.owedByAge')}>
      <Head title={t('figures.owedByAge')}>
        <LinkTo to="/money" quiet>
          {t('figures.openMoney')}
        </LinkTo>
        <LinkButton
          quiet
          busy={props.busy}
          label={t('figures.csvOf', { title: t('figures.owedByAge') })}
          onPress={props.onCsv}
        >
          {t('figures.csv')}
        </LinkButton>
      </Head>
      <dl className={css['facts']}>
        {facts.map((f) => (
          <div key={f.key} data-lit={f.lit}>
            <dt>{f.label}</dt>
            <dd>{f.value}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

function useFacts(view: MoneyFiguresView): readonly Fact[] {
  const t = useText();
  const manner = useManner();
  const { now, warranty, returning } = view;
  return [
    ...AGES.map((age) => ({
      key: age,
      label: t(`figures.owed.${age}`),
      value: money(manner, now.ageing[`${age}Minor`]),
      lit: age !== 'notDue' && now.ageing[`${age}Minor`] > 0,
    })),
    { key: 'held', label: t('figures.deposits'), value: money(manner, now.depositsMinor), lit: false },
    { key: 'credit', label: t('figures.credits'), value: money(manner, now.creditsMinor), lit: false },
    {
      key: 'redone',
      label: t('figures.warranty', {
        jobs: warranty.jobs,
        hours: amountText(hours(manner, warranty.workedMin)),
        material: money(manner, warranty.materialMinor),
        labour: warranty.labourMinor === 0 ? 'none' : money(manner, warranty.labourMinor),
      }),
      value: money(manner, warranty.costMinor),
      lit: false,
    },
    {
      key: 'again',
      label: t('figures.returning', { customers: returning.customers }),
      value: t('figures.bandOf', { accepted: returning.again, answered: returning.jobs }),
      lit: false,
    },
  ];
}
