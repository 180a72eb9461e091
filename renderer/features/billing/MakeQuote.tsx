import { type ReactNode, useState } from 'react';
import { hours, money } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import { spotMoves } from '#core/shared/text/stageMoves.ts';
import type { QuoteView } from '#core/shared/views/billing.ts';
import type { EstimateView } from '#core/shared/views/estimate.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Check } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { type Asks, askedOf } from './asksBefore.ts';
import { PriceAsks, useBegin } from './PriceAsks.tsx';

const MOST = 3;

type MakeProps = {
  readonly jobId: string;
  readonly first?: boolean;
  /** The version before: the next begins with what it asked for, and a test spot since then is why there is a next. */
  readonly before?: QuoteView;
};

/** Makes a quote, or its next version, from the job's kept estimates. */
export function MakeQuote(props: MakeProps): ReactNode {
  const t = useText();
  const manner = useManner();
  const estimates = useQuery('estimate.ofJob', { jobId: props.jobId });
  const make = useCommand('billing.quoteEstimates');
  const [chosen, setChosen] = useState<readonly string[] | null>(null);
  const [typed, setTyped] = useState<string | null>(null);
  const [put, setAsks] = useState<Asks | null>(null);
  const begin = useBegin(props.jobId, estimates.data ?? [], props.before);
  if (!estimates.data) return estimates.error ? <Refusal refusal={estimates.error} /> : <Waiting />;
  const newest = estimates.data[0];
  if (!newest)
    return (
      <Empty title={props.first ? t('quote.none') : t('quote.noEstimates')} text={t('quote.noEstimate')}>
        <LinkTo to={`/jobs/${props.jobId}/estimate`}>{t('quote.toEstimate')}</LinkTo>
      </Empty>
    );
  const ids = chosen ?? [newest.id];
  const asks = put ?? begin;
  const run = (manyThings: boolean): void =>
    void make.run({ jobId: props.jobId, estimateIds: [...ids], reason, manyThings, ...askedOf(asks, ids) });
  const reason = typed ?? spotReason(t, manner, estimates.data, props.before?.madeMs);
  return (
    <Stack>
      {props.first ? <p className="quiet">{t('quote.noneText')}</p> : null}
      <Estimates estimates={estimates.data.slice(0, 8)} ids={ids} onChange={setChosen} />
      <PriceAsks
        jobId={props.jobId}
        estimates={estimates.data.filter((e) => ids.includes(e.id))}
        value={asks}
        onChange={(next) => {
          make.clear();
          setAsks(next);
        }}
      />
      {props.first ? null : (
        <TextField
          label={t('quote.reason')}
          note={t('quote.reasonNote')}
          value={reason}
          onChange={setTyped}
          maxLength={300}
        />
      )}
      <NotMade refusal={make.refusal} onMany={() => run(true)} />
      <Row>
        <Button
          kind={props.first ? 'go' : 'plain'}
          busy={make.busy}
          why={ids.length === 0 ? t('quote.noneText') : undefined}
          onPress={() => run(false)}
        >
          {t(props.first ? 'quote.make' : 'quote.makeVersion')}
        </Button>
      </Row>
    </Stack>
  );
}

/** Why no quote was made; many pieces of one thing may be meant. */
function NotMade(props: {
  readonly refusal: ReturnType<typeof useCommand>['refusal'];
  readonly onMany: () => void;
}): ReactNode {
  const t = useText();
  return (
    <Refusal refusal={props.refusal}>
      {props.refusal?.code === 'THING_MANY' ? (
        <LinkButton onPress={props.onMany}>{t('quote.manyMeant')}</LinkButton>
      ) : null}
    </Refusal>
  );
}

/** The kept estimates to tick; with as many as a quote has options the others are switched off, and that is said. */
function Estimates(props: {
  readonly estimates: readonly EstimateView[];
  readonly ids: readonly string[];
  readonly onChange: (ids: readonly string[]) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { estimates, ids } = props;
  const full = ids.length >= MOST && estimates.length > MOST;
  return (
    <>
      {estimates.map((e) => (
        <Check
          key={e.id}
          value={ids.includes(e.id)}
          why={full && !ids.includes(e.id) ? t('quote.atMost') : undefined}
          onChange={(on) => props.onChange(on ? [...ids, e.id] : ids.filter((one) => one !== e.id))}
          label={t('quote.estimate', {
            version: e.version,
            basis: t(`estimate.basis.${e.basis}`),
            wish: t(`word.wish.${e.wish}`),
            hours: hours(manner, e.hours.p50Min).value,
            price: money(manner, e.price.totalMinor),
          })}
        />
      ))}
      {full ? (
        <p role="status" className="t1 dusty">
          {t('quote.atMost')}
        </p>
      ) : null}
    </>
  );
}

/** What a test spot since the last version did, in words for the customer; '' where there was none. */
function spotReason(
  t: Say,
  manner: Manner,
  [newest, before]: readonly EstimateView[],
  quotedMs: number | undefined,
): string {
  if (!newest || !before || quotedMs === undefined || newest.madeMs <= quotedMs) return '';
  const moves = spotMoves(manner, before, newest, 'tried');
  if (moves.length === 0) return '';
  const [from, to] = [before, newest].map((e) => hours(manner, e.hours.p50Min).value);
  return t('quote.reasonSpot', { stages: moves.join(', '), from: from ?? '', to: to ?? '' });
}
