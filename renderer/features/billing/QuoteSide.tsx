import { type ReactNode, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { exact } from '#core/shared/text/when.ts';
import type { QuoteView } from '#core/shared/views/billing.ts';
import type { JobState } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useDocument } from '../../bridge/documents.ts';
import { takeInHand } from '../../bridge/inHand.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { InlineConfirm } from '../../ui/Acts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Column, Foot, Head, Row, Stack } from '../../ui/Layout.tsx';
import { PaperActs } from '../../ui/PaperActs.tsx';
import { go } from '../../ui/router.ts';
import { Caution, Refusal } from '../../ui/States.tsx';
import { AgreeForm } from './AgreeForm.tsx';
import { DepositForm } from './DepositForm.tsx';
import { MakeQuote } from './MakeQuote.tsx';
import { SettleForm } from './SettleForm.tsx';

/** What to do with a quote: agree, deposit, send, print, make the next version. */
export function QuoteSide(props: { readonly quote: QuoteView }): ReactNode {
  const t = useText();
  const { quote } = props;
  const open = quote.state === 'draft' || quote.state === 'sent';
  const ended = quote.jobState === 'cancelled' || quote.jobState === 'noShow';
  const agreed = quote.options.find((o) => o.letter === quote.acceptance?.letter);
  return (
    <Column divided label={t('quote.agree')}>
      <Stack gap={3}>
        {open && !ended ? <AgreeForm quote={quote} /> : null}
        {quote.acceptance ? <Agreed quote={quote} /> : null}
        {WAITS.includes(quote.jobState) && quote.state === 'accepted' && quote.dropOffMin === null ? (
          <NextDates jobId={quote.jobId} />
        ) : null}
        {quote.depositOver ? null : (
          <DepositForm
            key={agreed?.letter ?? ''}
            jobId={quote.jobId}
            heldMinor={quote.depositHeldMinor}
            suggestedMinor={(agreed ?? quote.options[0])?.depositMinor ?? 0}
          />
        )}
        {quote.depositOver && quote.depositHeldMinor > 0 ? <SettleForm quote={quote} /> : null}
        <Papers quote={quote} open={open} />
        <section>
          <Head
            level={3}
            title={t('quote.versions')}
            note={quote.versions
              .map((v) => t('quote.version', { version: v.version, state: t(`quote.state.${v.state}`) }))
              .join(' · ')}
          />
          <MakeQuote jobId={quote.jobId} before={quote} />
        </section>
      </Stack>
      <Foot>
        <Caution>{t('quote.caution')}</Caution>
      </Foot>
    </Column>
  );
}

/** States of a job in which dates for its work can still be booked. */
const WAITS: readonly JobState[] = ['enquiry', 'quoted', 'booked', 'here'];

/** What follows an agreement: dates. The board shows the offers of the job in hand. */
function NextDates(props: { readonly jobId: JobId }): ReactNode {
  const t = useText();
  function find(): void {
    takeInHand(props.jobId);
    go('/bays');
  }
  return (
    <Row>
      <Button kind="go" onPress={find}>
        {t('quote.toDates')}
      </Button>
      <span className="quiet">{t('quote.nextDates')}</span>
    </Row>
  );
}

function Agreed(props: { readonly quote: QuoteView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { acceptance, options } = props.quote;
  if (!acceptance) return null;
  const { letter, name, way, atMs } = acceptance;
  const title = options.find((o) => o.letter === letter)?.title ?? '';
  return (
    <p className="strong">
      {t('quote.agreed', { letter, title, name, way: t(`quote.way.${way}`), when: exact(manner, atMs) })}
    </p>
  );
}

function Papers(props: { readonly quote: QuoteView; readonly open: boolean }): ReactNode {
  const t = useText();
  const { quote } = props;
  const pdf = useDocument('billing.quoteFile');
  const draft = useDocument('billing.emailDraft');
  const sent = useCommand('billing.sendQuote');
  const declined = useCommand('billing.declineQuote');
  const [asking, setAsking] = useState(false);
  const which = { quoteId: quote.id, revision: quote.revision };
  return (
    <section>
      <PaperActs
        paper={{
          busy: pdf.busy,
          refusal: pdf.refusal,
          open: () => pdf.open({ quoteId: quote.id }),
          save: () => pdf.save({ quoteId: quote.id }),
        }}
        mail={{ ...draft, save: () => draft.save({ of: 'quote', quoteId: quote.id }) }}
        to={quote.payer}
      />
      <Refusal refusal={sent.refusal ?? declined.refusal} />
      {props.open ? (
        <Row>
          {quote.state === 'draft' ? (
            <LinkButton onPress={() => void sent.run(which)}>{t('quote.send')}</LinkButton>
          ) : null}
          <LinkButton onPress={() => setAsking(true)}>{t('quote.decline')}</LinkButton>
        </Row>
      ) : null}
      {asking ? (
        <InlineConfirm
          question={t('quote.declineAsk')}
          yes={t('quote.declineYes')}
          no={t('quote.keep')}
          onYes={() => void declined.run(which).then(() => setAsking(false))}
          onNo={() => setAsking(false)}
        />
      ) : null}
    </section>
  );
}
