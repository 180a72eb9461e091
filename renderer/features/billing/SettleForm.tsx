import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import type { QuoteView } from '#core/shared/views/billing.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import { Caution, Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';
import { DateAnswers, type DateChoice } from './DateAnswers.tsx';
import { OpenJobs } from './OpenJobs.tsx';
import { PayWay, type Way } from './PayWay.tsx';

const OUTCOMES = ['kept', 'returned', 'moved'] as const;
type Outcome = (typeof OUTCOMES)[number];
type Choice = {
  readonly outcome: Outcome;
  readonly feeMinor: number | null;
  readonly way: Way;
  readonly toJobId: string | null;
};
const FIRST: Choice = { outcome: 'returned', feeMinor: null, way: 'card', toJobId: null };

/**
 * Ends the deposit of a job that will not be done: kept as a fee, paid back, or moved to another job. What the bill
 * of a job left over is paid back or moved: there is no fee on work that was billed.
 */
export function SettleForm(props: { readonly quote: QuoteView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { jobId, depositHeldMinor } = props.quote;
  const billed = isBilled(props.quote);
  const [choice, setChoice] = useState(FIRST);
  const settle = useCommand('billing.settleDeposit');
  const run = (date: DateChoice): void => void settle.run({ jobId, ...choice, date });
  const lacksJob = choice.outcome === 'moved' && choice.toJobId === null;
  return (
    <section className={css['form']}>
      <Head
        level={3}
        title={t(billed ? 'settle.left' : 'settle.title')}
        note={money(manner, depositHeldMinor)}
      />
      <Choices quote={props.quote} choice={choice} put={(part) => setChoice({ ...choice, ...part })} />
      <Refusal refusal={settle.refusal}>
        <DateAnswers code={settle.refusal?.code} onDate={run} />
      </Refusal>
      <Row>
        <Button
          kind="final"
          busy={settle.busy}
          why={lacksJob ? t('settle.toJob') : undefined}
          onPress={() => run('ask')}
        >
          {t(`settle.do.${choice.outcome}`)}
        </Button>
      </Row>
      {billed ? null : <Caution>{t('settle.caution')}</Caution>}
    </section>
  );
}

/** Its deposit is over because it is billed, not because nothing comes of it. */
function isBilled({ jobState }: QuoteView): boolean {
  return jobState !== 'cancelled' && jobState !== 'noShow';
}

function Choices(props: {
  readonly quote: QuoteView;
  readonly choice: Choice;
  readonly put: (part: Partial<Choice>) => void;
}): ReactNode {
  const t = useText();
  const { quote, choice, put } = props;
  const billed = isBilled(quote);
  return (
    <>
      <Segmented
        label={t('settle.outcome')}
        value={choice.outcome}
        onChange={(outcome) => put({ outcome })}
        options={OUTCOMES.filter((value) => !billed || value !== 'kept').map((value) => ({
          value,
          label: t(`settle.${value}`),
        }))}
      />
      {choice.outcome === 'moved' ? (
        <OpenJobs
          customerId={quote.customer.id}
          except={quote.jobId}
          value={choice.toJobId}
          onChange={(toJobId) => put({ toJobId })}
        />
      ) : null}
      <div className={css['sums']}>
        {billed ? null : (
          <MoneyField
            label={t('settle.fee')}
            note={choice.outcome === 'kept' ? t('settle.feeWhole') : undefined}
            value={choice.feeMinor}
            onChange={(feeMinor) => put({ feeMinor })}
            min={0}
          />
        )}
        {choice.outcome === 'moved' ? null : <PayWay value={choice.way} onChange={(way) => put({ way })} />}
      </div>
    </>
  );
}
