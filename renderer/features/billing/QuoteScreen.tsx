import type { ReactNode } from 'react';
import { sharedLimits } from '#core/shared/text/limits.ts';
import { dayText } from '#core/shared/text/when.ts';
import type { QuoteView } from '#core/shared/views/billing.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Column, Head, Place } from '../../ui/Layout.tsx';
import type { Params } from '../../ui/router.ts';
import { Refusal, Waiting } from '../../ui/States.tsx';
import { AboveCeiling } from './AboveCeiling.tsx';
import css from './billing.module.css';
import { MakeQuote } from './MakeQuote.tsx';
import { QuoteCompare } from './QuoteCompare.tsx';
import { QuoteSide } from './QuoteSide.tsx';

/** The quote of a job: two options either side of the tape, what polishing will not fix, and what to do with it. */
export function QuoteScreen(props: { readonly params: Params }): ReactNode {
  const t = useText();
  const jobId = props.params['jobId'] ?? '';
  const quote = useQuery('billing.readJobQuote', { jobId });
  if (quote.data === undefined)
    return (
      <Place label={t('quote.title')}>{quote.error ? <Refusal refusal={quote.error} /> : <Waiting />}</Place>
    );
  if (quote.data === null)
    return (
      <Place label={t('quote.title')}>
        <Column>
          <Head title={t('quote.title')} />
          <MakeQuote jobId={jobId} first />
        </Column>
      </Place>
    );
  return (
    <Place label={t('quote.title')} columns="right">
      <Column label={t('quote.title')}>
        <QuoteHead quote={quote.data} />
        <QuoteCompare quote={quote.data} />
        <Limits quote={quote.data} />
      </Column>
      <QuoteSide key={quote.data.id} quote={quote.data} />
    </Place>
  );
}

function QuoteHead(props: { readonly quote: QuoteView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { quote } = props;
  const note = t('quote.head', {
    number: quote.number,
    version: quote.version,
    state: t(`quote.state.${quote.state}`),
    day: dayText(manner, quote.validUntilDay),
  });
  return (
    <>
      <Head title={t('quote.title')} note={`${note}, ${t(`quote.basis.${quote.basis}`)}`}>
        <LinkTo to={`/jobs/${quote.jobId}`} quiet>
          {t('invoice.toJob', { number: quote.jobNumber })}
        </LinkTo>
      </Head>
      <p>
        <strong>{quote.customer.name}</strong>{' '}
        <span className="quiet">
          {[quote.vehicle.makeModel, quote.vehicle.plate].filter((text) => text !== '').join(', ')}
        </span>
      </p>
      {quote.lapsed ? <p className="lit">{t('quote.lapsed')}</p> : null}
      <AboveCeiling quote={quote} options={inQuestion(quote)} />
    </>
  );
}

/** Options that may still come about: once one is agreed, that one alone. */
function inQuestion({ options, acceptance }: QuoteView): QuoteView['options'] {
  return acceptance ? options.filter((o) => o.letter === acceptance.letter) : options;
}

function Limits(props: { readonly quote: QuoteView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { quote } = props;
  const limits = sharedLimits(manner, quote.options, quote.vehicle.body);
  return (
    <section>
      <Head level={3} title={t('quote.limits')} />
      {limits.length === 0 ? <p className="quiet">{t('quote.noLimits')}</p> : null}
      <ul className={css['limits']}>
        {limits.map((limit) => (
          <li key={limit.text}>
            {limit.text}
            {limit.letters.length < quote.options.length ? (
              <span className="t1 dusty">
                {' '}
                {t('quote.limitsOnly', { letters: limit.letters.join(', ') })}
              </span>
            ) : null}
          </li>
        ))}
      </ul>
    </section>
  );
}
