import { type ReactNode, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { money } from '#core/shared/text/format.ts';
import { date } from '#core/shared/text/when.ts';
import type { Ppm } from '#core/shared/units.ts';
import type { PartialLineView, PartialPlan } from '#core/shared/views/partial.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Column, Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import type { Params } from '../../ui/router.ts';
import { go } from '../../ui/router.ts';
import { Caution, Refusal, Waiting } from '../../ui/States.tsx';
import css from './billing.module.css';
import { PartialLines, type Shares } from './PartialLines.tsx';

const PPM_PER_CENT = 10_000;

/** What of a job is billed now: proposed by its finished stages, or as far as somebody says, line by line. */
export function PartialScreen(props: { readonly params: Params }): ReactNode {
  const t = useText();
  const jobId = (props.params['jobId'] ?? '') as JobId;
  const [shares, setShares] = useState<Shares>(null);
  const input = shares === null ? null : [...shares].map(([line, sharePpm]) => ({ line, sharePpm }));
  const plan = useQuery('billing.readPartialPlan', { jobId, shares: input }, { keep: true });
  if (!plan.data)
    return (
      <Place label={t('partial.title')}>
        <Column>
          <Head level={1} title={t('partial.title')}>
            <ToJob jobId={jobId} />
          </Head>
          {plan.error ? <Refusal refusal={plan.error} /> : <Waiting />}
        </Column>
      </Place>
    );
  const shown = sharesOf(plan.data.lines, shares);
  return (
    <Place label={t('partial.title')} columns="right">
      <Column>
        <PlanHead plan={plan.data} jobId={jobId} />
        <AllLines
          byStages={shares === null}
          onAll={(ppm) => setShares(new Map([...shown.keys()].map((line) => [line, ppm])))}
          onStages={() => setShares(null)}
        />
        <PartialLines
          plan={plan.data}
          shares={shown}
          onShare={(line, ppm) => setShares(new Map([...shown, [line, ppm]]))}
        />
      </Column>
      <PlanSide plan={plan.data} jobId={jobId} shares={input} asking={plan.asking} refusal={plan.error} />
    </Place>
  );
}

/** What each field says: the share asked for, else what is finished, and never less than what was billed. */
function sharesOf(lines: readonly PartialLineView[], shares: Shares): ReadonlyMap<number, Ppm> {
  const shown = (l: PartialLineView): Ppm => {
    const billedPpm = l.wholeMinor === 0 ? 0 : Math.round((l.billedMinor / l.wholeMinor) * 1_000_000);
    return (shares?.get(l.line) ?? Math.max(l.donePpm, billedPpm)) as Ppm;
  };
  return new Map(lines.filter((l) => l.asked).map((l) => [l.line, shown(l)]));
}

function ToJob(props: { readonly jobId: JobId; readonly number?: number }): ReactNode {
  const t = useText();
  return (
    <LinkTo to={`/jobs/${props.jobId}`} quiet>
      {props.number === undefined ? t('partial.toJob') : t('invoice.toJob', { number: props.number })}
    </LinkTo>
  );
}

function PlanHead(props: { readonly plan: PartialPlan; readonly jobId: JobId }): ReactNode {
  const t = useText();
  const { jobNumber, vehicle, payer } = props.plan;
  return (
    <>
      <Head level={1} title={t('partial.title')} note={t('partial.head', { job: jobNumber, vehicle, payer })}>
        <ToJob jobId={props.jobId} number={jobNumber} />
      </Head>
      <p className="quiet">{t('partial.intro')}</p>
    </>
  );
}

/** One share for all lines, or back to what the stages say. */
function AllLines(props: {
  readonly byStages: boolean;
  readonly onAll: (share: Ppm) => void;
  readonly onStages: () => void;
}): ReactNode {
  const t = useText();
  const [percent, setPercent] = useState<number | null>(null);
  const set = (): void => props.onAll(Math.round((percent ?? 0) * PPM_PER_CENT) as Ppm);
  return (
    <div className={css['partialAll']}>
      <NumberField
        label={t('partial.all')}
        unit="%"
        digits={2}
        step={5}
        min={0}
        max={100}
        value={percent}
        onChange={setPercent}
      />
      <Button why={percent === null ? t('partial.sayShare') : undefined} onPress={set}>
        {t('partial.allSet')}
      </Button>
      {props.byStages ? (
        <span className="t1 dusty">{t('partial.byStagesNow')}</span>
      ) : (
        <LinkButton onPress={props.onStages}>{t('partial.byStages')}</LinkButton>
      )}
    </div>
  );
}

type SideProps = {
  readonly plan: PartialPlan;
  readonly jobId: JobId;
  readonly shares: readonly { readonly line: number; readonly sharePpm: Ppm }[] | null;
  readonly asking: boolean;
  readonly refusal: Parameters<typeof Refusal>[0]['refusal'];
};

/** The sums, and the draft. */
function PlanSide(props: SideProps): ReactNode {
  const t = useText();
  const { plan, jobId, shares } = props;
  const draft = useCommand('billing.draftPartial');
  async function make(): Promise<void> {
    const made = await draft.run({ jobId, shares: shares && [...shares] });
    if (made.ok) go(`/money/${made.value.invoiceId}`);
  }
  return (
    <Column divided label={t('partial.sums')}>
      <Stack gap={3}>
        <Sums plan={plan} />
        {plan.aheadOfWork ? <Caution>{t('partial.ahead')}</Caution> : null}
        {plan.draftId ? (
          <Caution>
            {t('partial.waits')} <LinkTo to={`/money/${plan.draftId}`}>{t('partial.toDraft')}</LinkTo>
          </Caution>
        ) : (
          <Row>
            <Button
              kind="go"
              busy={draft.busy || props.asking}
              why={plan.nowMinor > 0 ? undefined : t('partial.none')}
              onPress={() => void make()}
            >
              {t('partial.draft')}
            </Button>
            <span className="t1 dusty">{t('partial.draftNote')}</span>
          </Row>
        )}
        <Refusal refusal={draft.refusal ?? props.refusal} />
        <p className="t1 dusty">{t('partial.caution')}</p>
      </Stack>
    </Column>
  );
}

function Sums(props: { readonly plan: PartialPlan }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { wholeMinor, before, nowMinor, restMinor } = props.plan;
  const row = (key: string, text: string, minor: number): ReactNode => (
    <Item key={key}>
      <span className={css['grow']}>{text}</span>
      <span className={css['end']}>{money(manner, minor)}</span>
    </Item>
  );
  return (
    <section>
      <Head level={3} title={t('partial.sums')} />
      <div className="t1 dusty">{t('partial.sumNow')}</div>
      <div className="t4 num" data-now={nowMinor}>
        {money(manner, nowMinor)}
      </div>
      <List label={t('partial.sums')}>
        {row('whole', t('partial.sumWhole'), wholeMinor)}
        {before.map(({ id, number, day, toPayMinor }) =>
          row(id, t('partial.sumBefore', { number, day: date(manner, day) }), -toPayMinor),
        )}
        {row('now', t('partial.sumNow'), -nowMinor)}
        {row('rest', t('partial.sumRest'), restMinor)}
      </List>
    </section>
  );
}
