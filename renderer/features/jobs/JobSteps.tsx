import type { ReactNode } from 'react';
import type { JobView } from '#core/shared/views/bookings.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Row } from '../../ui/Layout.tsx';
import { go } from '../../ui/router.ts';
import { Refusal } from '../../ui/States.tsx';

type Step = 'inspection' | 'estimate' | 'quote' | 'offers' | 'arrive' | 'card' | 'handOver' | 'invoice';
const WHERE: Readonly<Record<Step, string>> = {
  inspection: 'inspection',
  estimate: 'estimate',
  quote: 'quote',
  offers: 'offers',
  arrive: 'arrive',
  card: 'card',
  handOver: 'hand-over',
  invoice: 'invoice',
};

/** The one next thing of a job, by what is known and agreed so far. */
function nextStep(job: JobView): Step | null {
  switch (job.state) {
    case 'enquiry':
      return job.stages.length === 0 ? 'estimate' : job.promise.dropOffMin === null ? 'quote' : 'arrive';
    case 'quoted':
      return job.money.quoteState === 'accepted' ? 'offers' : 'quote';
    case 'booked':
      return 'arrive';
    case 'here':
      if (job.inspectionCount === 0) return 'inspection';
      return job.money.quoteState === 'accepted' ? 'card' : 'quote';
    case 'inWork':
      return 'card';
    case 'ready':
      return job.money.invoicedMinor === null && job.purpose !== 'inspectionVisit' ? 'invoice' : 'handOver';
    case 'collected':
      return job.money.owedMinor ? 'invoice' : null;
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
  const next = nextStep(job);
  const to = (step: Step): string => `/jobs/${job.id}/${WHERE[step]}`;
  const open: readonly Step[] = [
    'inspection',
    'estimate',
    'quote',
    'offers',
    ...(job.allows.includes('arrive') ? (['arrive'] as const) : []),
    'card',
    ...(job.allows.includes('handOver') ? (['handOver'] as const) : []),
    'invoice',
  ];
  return (
    <nav aria-label={t('jobs.steps')}>
      <Row>
        {next === null ? null : (
          <Button kind="go" onPress={() => go(to(next))}>
            {t(`jobs.step.${next}`)}
          </Button>
        )}
        {open
          .filter((step) => step !== next)
          .map((step) => (
            <LinkTo key={step} to={to(step)}>
              {t(`jobs.step.${step}`)}
            </LinkTo>
          ))}
        <LinkButton quiet onPress={() => void card.open({ jobId: job.id })}>
          {t('jobs.step.printCard')}
        </LinkButton>
      </Row>
      <Refusal refusal={card.refusal} />
    </nav>
  );
}
