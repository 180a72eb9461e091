import { type ReactNode, useState } from 'react';
import { hours, money } from '#core/shared/text/format.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { Check } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';

const MOST = 3;

/** Makes a quote, or its next version, from the job's kept estimates. */
export function MakeQuote(props: { readonly jobId: string; readonly first?: boolean }): ReactNode {
  const t = useText();
  const manner = useManner();
  const estimates = useQuery('estimate.ofJob', { jobId: props.jobId });
  const make = useCommand('billing.quoteEstimates');
  const [chosen, setChosen] = useState<readonly string[] | null>(null);
  const [reason, setReason] = useState('');
  if (!estimates.data) return estimates.error ? <Refusal refusal={estimates.error} /> : <Waiting />;
  const newest = estimates.data[0];
  if (!newest)
    return (
      <Empty title={props.first ? t('quote.none') : t('quote.noEstimates')} text={t('quote.noEstimate')}>
        <LinkTo to={`/jobs/${props.jobId}/estimate`}>{t('quote.toEstimate')}</LinkTo>
      </Empty>
    );
  const ids = chosen ?? [newest.id];
  const toggle = (id: string, on: boolean): void =>
    setChosen(on ? [...ids, id].slice(-MOST) : ids.filter((one) => one !== id));
  return (
    <Stack>
      {props.first ? <p className="quiet">{t('quote.noneText')}</p> : null}
      {estimates.data.slice(0, 8).map((e) => (
        <Check
          key={e.id}
          value={ids.includes(e.id)}
          onChange={(on) => toggle(e.id, on)}
          label={t('quote.estimate', {
            version: e.version,
            basis: t(`estimate.basis.${e.basis}`),
            wish: t(`word.wish.${e.wish}`),
            hours: hours(manner, e.hours.p50Min).value,
            price: money(manner, e.price.totalMinor),
          })}
        />
      ))}
      {props.first ? null : (
        <TextField
          label={t('quote.reason')}
          note={t('quote.reasonNote')}
          value={reason}
          onChange={setReason}
          maxLength={300}
        />
      )}
      <Refusal refusal={make.refusal} />
      <Row>
        <Button
          kind={props.first ? 'go' : 'plain'}
          busy={make.busy}
          why={ids.length === 0 ? t('quote.noneText') : undefined}
          onPress={() => void make.run({ jobId: props.jobId, estimateIds: [...ids], reason })}
        >
          {t(props.first ? 'quote.make' : 'quote.makeVersion')}
        </Button>
      </Row>
    </Stack>
  );
}
