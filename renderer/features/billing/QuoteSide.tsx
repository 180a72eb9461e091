import { type ReactNode, useState } from 'react';
import { CONSENT_WAYS, type ConsentWay } from '#core/shared/consent.ts';
import type { JobId } from '#core/shared/ids.ts';
import { money } from '#core/shared/text/format.ts';
import { exact } from '#core/shared/text/when.ts';
import type { OptionLetter, QuoteView } from '#core/shared/views/billing.ts';
import type { JobState } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useDocument } from '../../bridge/documents.ts';
import { takeInHand } from '../../bridge/inHand.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { InlineConfirm } from '../../ui/Acts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Check, Segmented } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Column, Foot, Head, Row, Stack } from '../../ui/Layout.tsx';
import { PaperActs } from '../../ui/PaperActs.tsx';
import { go } from '../../ui/router.ts';
import { Select } from '../../ui/Select.tsx';
import { Caution, Refusal } from '../../ui/States.tsx';
import { AboveCeiling } from './AboveCeiling.tsx';
import css from './billing.module.css';
import { DepositForm } from './DepositForm.tsx';
import { MakeQuote } from './MakeQuote.tsx';
import { QuoteTimes } from './QuoteTimes.tsx';
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
          <MakeQuote jobId={quote.jobId} quotedMs={quote.madeMs} />
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

function AgreeForm(props: { readonly quote: QuoteView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { quote } = props;
  const [letter, setLetter] = useState<OptionLetter>(quote.options[0]?.letter ?? 'A');
  const [name, setName] = useState(quote.payer.name);
  const [way, setWay] = useState<ConsentWay>('spoken');
  const [knowingly, setKnowingly] = useState(false);
  const accept = useCommand('billing.acceptQuote');
  const option = quote.options.find((o) => o.letter === letter);
  const amount = money(manner, option?.totals.toPayMinor ?? 0);
  return (
    <section className={css['form']}>
      <Head level={3} title={t('quote.agree')} />
      {quote.options.length > 1 ? (
        <Segmented
          label={t('quote.agreeOption')}
          value={letter}
          onChange={setLetter}
          options={quote.options.map((o) => ({ value: o.letter, label: o.letter }))}
        />
      ) : null}
      {option ? <p className="strong">{`${letter} · ${option.title}`}</p> : null}
      <div className={css['two']}>
        <TextField label={t('quote.agreeName')} value={name} onChange={setName} maxLength={120} />
        <Select
          label={t('quote.agreeWay')}
          value={way}
          onChange={setWay}
          options={CONSENT_WAYS.map((value) => ({ value, label: t(`quote.way.${value}`) }))}
        />
      </div>
      {option ? <AboveCeiling quote={quote} options={[option]} /> : null}
      {option ? <QuoteTimes quote={quote} option={option} /> : null}
      {quote.lapsed ? <Check label={t('quote.knowingly')} value={knowingly} onChange={setKnowingly} /> : null}
      <Refusal refusal={accept.refusal} />
      <Row>
        <Button
          kind="go"
          busy={accept.busy}
          onPress={() =>
            void accept.run({ quoteId: quote.id, revision: quote.revision, letter, name, way, knowingly })
          }
        >
          {t('quote.agreeNow', { letter, amount })}
        </Button>
      </Row>
    </section>
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
