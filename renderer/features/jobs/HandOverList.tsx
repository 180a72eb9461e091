import type { ReactNode } from 'react';
import { limitSentences } from '#core/shared/text/limits.ts';
import type { JobView } from '#core/shared/views/bookings.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './record.module.css';

/** What the customer signs for at the handover: the work that was done, and what was agreed to stay. */
export function HandOverList(props: { readonly job: JobView }): ReactNode {
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
      <Refusal refusal={quote.error} />
    </section>
  );
}
