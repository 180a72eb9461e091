import type { ReactNode } from 'react';
import { isQuotedThing } from '#core/shared/bill.ts';
import { count } from '#core/shared/text/format.ts';
import { limitSentences } from '#core/shared/text/limits.ts';
import type { QuoteOptionView } from '#core/shared/views/billing.ts';
import type { JobView } from '#core/shared/views/bookings.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Check } from '../../ui/Choice.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import { wasWorkedOn } from './carRecord.ts';
import css from './record.module.css';

/** What the customer signs for at the handover: the work that was done, and what was agreed to stay. */
export function HandOverList(props: {
  readonly job: JobView;
  /** Whether the things that were agreed beside the work are handed over. */
  readonly given: boolean;
  readonly onGiven: (given: boolean) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { job } = props;
  const quote = useQuery('billing.readJobQuote', { jobId: job.id });
  const agreed = quote.data?.options.find((o) => o.letter === quote.data?.acceptance?.letter);
  const stays = limitSentences(manner, agreed?.limits ?? [], job.vehicle.body);
  const done = job.stages.filter(
    (s) => s.state === 'done' && s.kind !== 'inspection' && s.kind !== 'handover',
  );
  return (
    <section className={css['list']}>
      <Head level={3} title={t('handOver.done')} />
      <p>
        {done.length === 0 ? t('handOver.nothing') : done.map((s) => t(`word.stage.${s.kind}`)).join(', ')}
      </p>
      {stays.length === 0 ? null : (
        <>
          <Head level={3} title={t('handOver.stays')} />
          <ul>
            {stays.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </>
      )}
      <Things of={agreed} worked={wasWorkedOn(job)} given={props.given} onGiven={props.onGiven} />
      <Refusal refusal={quote.error} />
    </section>
  );
}

/** The things of the agreed option, and that they go with the car. */
function Things(props: {
  readonly of: Pick<QuoteOptionView, 'bill'> | undefined;
  readonly worked: boolean;
  readonly given: boolean;
  readonly onGiven: (given: boolean) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const things = props.of?.bill.lines.filter(isQuotedThing) ?? [];
  if (things.length === 0) return null;
  return (
    <>
      <Head level={3} title={t('handOver.things')} />
      <ul>
        {things.map((line, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: the lines of an agreed option never change
          <li key={i}>{t('handOver.thing', { n: count(manner, line.quantity), text: line.text })}</li>
        ))}
      </ul>
      <Check label={t('handOver.thingsGiven')} value={props.given} onChange={props.onGiven} />
      <p className="t1 dusty">{t(props.worked ? 'handOver.thingsNote' : 'handOver.thingsUnbilled')}</p>
    </>
  );
}
