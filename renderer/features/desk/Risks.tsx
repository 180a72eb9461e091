import type { ReactNode } from 'react';
import { lasting, percent } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { when } from '#core/shared/text/when.ts';
import { PPM } from '#core/shared/units.ts';
import type { PromiseAtRisk } from '#core/shared/views/desk.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Curve } from '../../ui/charts/Curve.tsx';
import { Figure } from '../../ui/Figure.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { CalmNote, Waiting } from '../../ui/States.tsx';
import css from './desk.module.css';
import { Remedies } from './Remedies.tsx';

/** Promises that are not safe, soonest first, each with why and where to mend it. */
export function Risks(props: {
  readonly risks: readonly PromiseAtRisk[];
  readonly open: number;
  readonly nowMs: number;
  /** They are worked out again: that none is there says nothing yet. */
  readonly asking: boolean;
}): ReactNode {
  const t = useText();
  const { risks, open } = props;
  return (
    <section className={css['part']} aria-label={t('desk.risks')}>
      <Head title={t('desk.risks')} note={t('desk.risksOf', { risks: risks.length, open })} />
      {risks.length > 0 ? null : props.asking ? <Waiting /> : <CalmNote>{t('desk.noRisks')}</CalmNote>}
      {risks.map((risk) => (
        <Risk key={risk.jobId} risk={risk} nowMs={props.nowMs} />
      ))}
    </section>
  );
}

function Risk(props: { readonly risk: PromiseAtRisk; readonly nowMs: number }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { risk, nowMs } = props;
  const { kind } = risk.reason;
  const chance = risk.nowPpm === null || kind === 'passed' ? null : percent(manner, risk.nowPpm / PPM);
  const likely = risk.ready === null ? '' : when(manner, risk.ready.p50Min * 60_000, nowMs);
  return (
    <article className={`lit ${css['risk']}`}>
      <div className={css['line']}>
        <a className="cut strong" href={`#/jobs/${risk.jobId}`} title={risk.customer}>
          {risk.customer}
        </a>
        <time className="quiet">{when(manner, risk.pickUpMin * 60_000, nowMs)}</time>
        {chance === null ? (
          <span className="lamp">{t(kind === 'notPlaced' ? 'desk.noPlace' : 'desk.late')}</span>
        ) : (
          <Figure amount={chance} size={3} strong lit label={t('desk.chance')} />
        )}
      </div>
      <p className="quiet">
        <Why risk={risk} /> {likely ? t('desk.likely', { when: likely }) : null}
      </p>
      {risk.ready && chance ? (
        <Curve
          label={t('desk.curve', { chance: amountText(chance) })}
          quantiles={{ p50: risk.ready.p50Min, p80: risk.ready.p80Min, p95: risk.ready.p95Min }}
          promise={risk.pickUpMin}
          height={32}
          lit
        />
      ) : null}
      <Remedies risk={risk} nowMs={nowMs} />
      <Row>
        <LinkTo to="/bays">{t('desk.toBays')}</LinkTo>
        {risk.phone ? <a href={`tel:${risk.phone}`}>{t('desk.ring', { phone: risk.phone })}</a> : null}
      </Row>
    </article>
  );
}

function Why(props: { readonly risk: PromiseAtRisk }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { reason } = props.risk;
  if (reason.kind === 'overrun')
    return t('desk.why.overrun', {
      stage: t(`word.stage.${reason.stage}`),
      over: amountText(lasting(manner, reason.overMin)),
    });
  if (reason.kind === 'notArrived')
    return t('desk.why.notArrived', { late: amountText(lasting(manner, reason.lateMin)) });
  if (reason.kind === 'planEndsLate')
    return reason.overMin > 0
      ? t('desk.why.planEndsLate', { over: amountText(lasting(manner, reason.overMin)) })
      : t('desk.why.tight');
  if (reason.kind === 'padsMissing') return t('desk.why.padsMissing', { ...reason });
  return t(`desk.why.${reason.kind}`);
}
