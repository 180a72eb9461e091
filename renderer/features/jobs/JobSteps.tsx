import type { ReactNode } from 'react';
import type { JobView } from '#core/shared/views/bookings.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useDocument } from '../../bridge/documents.ts';
import { takeInHand } from '../../bridge/inHand.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Row } from '../../ui/Layout.tsx';
import { go } from '../../ui/router.ts';
import { Refusal } from '../../ui/States.tsx';
import css from './jobs.module.css';

type Step =
  | 'inspection'
  | 'pictures'
  | 'estimate'
  | 'quote'
  | 'offers'
  | 'arrive'
  | 'card'
  | 'handOver'
  | 'partial'
  | 'invoice';
const WHERE: Readonly<Record<Exclude<Step, 'offers' | 'invoice'>, string>> = {
  inspection: 'inspection',
  pictures: 'pictures',
  estimate: 'estimate',
  quote: 'quote',
  arrive: 'arrive',
  card: 'card',
  handOver: 'hand-over',
  partial: 'partial',
};

/** Nothing of it was billed, or only a part of the work. */
function isToBill({ money }: JobView): boolean {
  return money.invoicedMinor === null || money.partlyMinor !== null;
}

/** What is done so far can be billed: the car is here and a price is agreed, and its invoice is not written. */
function mayBillPart(job: JobView): boolean {
  const here = job.state === 'here' || job.state === 'inWork' || job.state === 'ready';
  return here && job.money.quoteState === 'accepted' && isToBill(job);
}

/** The one next thing of a job, by what is known and agreed so far. */
function nextStep(job: JobView): Step | null {
  switch (job.state) {
    case 'enquiry':
      return job.stages.length === 0 ? 'estimate' : job.promise.dropOffMin === null ? 'quote' : 'arrive';
    case 'quoted':
      return job.money.quoteState === 'accepted' ? 'offers' : 'quote';
    case 'booked':
      return job.promise.forVisit && job.money.quoteState === 'accepted' ? 'offers' : 'arrive';
    case 'here':
      if (job.inspectionCount === 0) return 'inspection';
      return job.money.quoteState === 'accepted' ? 'card' : 'quote';
    case 'inWork':
      return 'card';
    case 'ready':
      return isToBill(job) && job.purpose !== 'inspectionVisit' ? 'invoice' : 'handOver';
    case 'collected':
      return job.money.owedMinor || job.money.partlyMinor !== null ? 'invoice' : null;
    case 'noShow':
      return 'offers';
    case 'cancelled':
      return null;
  }
}

/** What comes next for this job, and the way to everything else of it. */
export function JobSteps(props: { readonly job: JobView }): ReactNode {
  const t = useText();
  const { job } = props;
  const card = useDocument('bookings.cardFile');
  const calendar = useDocument('bays.calendarFile');
  const next = nextStep(job);
  const draft = useCommand('billing.draftInvoice');
  async function walk(step: Step): Promise<void> {
    if (step === 'offers') {
      // The board shows the offers of the job in hand.
      takeInHand(job.id);
      go('/bays');
    } else if (step === 'invoice') {
      if (!isToBill(job)) return go('/money');
      const made = await draft.run({ jobId: job.id });
      if (made.ok) go(`/money/${made.value.invoiceId}`);
    } else go(`/jobs/${job.id}/${WHERE[step]}`);
  }
  const over = job.state === 'cancelled';
  const open: readonly Step[] = [
    'inspection',
    'pictures',
    'estimate',
    'quote',
    ...(over ? [] : (['offers'] as const)),
    ...(job.allows.includes('arrive') ? (['arrive'] as const) : []),
    ...(over ? [] : (['card'] as const)),
    ...(job.allows.includes('handOver') ? (['handOver'] as const) : []),
    ...(mayBillPart(job) ? (['partial'] as const) : []),
    'invoice',
  ];
  return (
    <nav className={css['steps']} aria-label={t('jobs.steps')}>
      <Row>
        {next === null ? null : (
          <Button kind="go" onPress={() => void walk(next)}>
            {t(`jobs.step.${next}`)}
          </Button>
        )}
        {open
          .filter((step) => step !== next)
          .map((step) => (
            <LinkButton key={step} onPress={() => void walk(step)}>
              {t(`jobs.step.${step}`)}
            </LinkButton>
          ))}
        <LinkButton quiet onPress={() => void card.open({ jobId: job.id })}>
          {t('jobs.step.printCard')}
        </LinkButton>
        {job.promise.dropOffMin === null ? null : (
          <LinkButton quiet onPress={() => void calendar.save({ jobId: job.id })}>
            {t('jobs.step.calendar')}
          </LinkButton>
        )}
      </Row>
      <Refusal refusal={card.refusal ?? calendar.refusal ?? draft.refusal} />
    </nav>
  );
}
