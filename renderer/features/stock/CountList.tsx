import { type ReactNode, useState } from 'react';
import { dayOf } from '#core/shared/text/when.ts';
import type { CountPlan, CountPlanRow } from '#core/shared/views/stockCounts.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Column, Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import css from './Containers.module.css';
import { CountForm } from './CountForm.tsx';
import { TakeCounts } from './TakeCounts.tsx';

/** What is to be counted today, shelf by shelf: here, on paper, or as a list that is read back. */
export function CountList(): ReactNode {
  const t = useText();
  const plan = useQuery('stock.countPlan', {});
  const file = useDocument('stock.countList');
  const none = plan.data?.rows.length === 0 ? t('stock.ui.countNothing') : undefined;
  return (
    <Place label={t('stock.ui.countList')} columns="left">
      <Column label={t('stock.ui.countPrint')}>
        <LinkTo quiet to="/stock">
          {t('stock.ui.back')}
        </LinkTo>
        <Stack gap={4}>
          <Stack gap={2}>
            <Head title={t('stock.ui.countPrint')} />
            <p className="quiet">{t('stock.ui.countListText')}</p>
            <Row>
              <Button busy={file.busy} why={none} onPress={() => void file.open({ as: 'pdf' })}>
                {t('stock.ui.countPrint')}
              </Button>
              <Button busy={file.busy} why={none} onPress={() => void file.save({ as: 'csv' })}>
                {t('stock.ui.countCsv')}
              </Button>
            </Row>
            <Refusal refusal={file.refusal} />
          </Stack>
          <TakeCounts />
        </Stack>
      </Column>
      <Column label={t('stock.ui.countList')} divided>
        <Refusal refusal={plan.error} />
        {plan.loading ? <Waiting /> : null}
        {plan.data ? <Today plan={plan.data} /> : null}
      </Column>
    </Place>
  );
}

function Today(props: { readonly plan: CountPlan }): ReactNode {
  const t = useText();
  const { rows, later } = props.plan;
  return (
    <>
      <Head title={t('stock.ui.countList')} note={t('stock.ui.countListNote', { later })} />
      {rows.length === 0 ? (
        <Empty title={t('stock.ui.countNothing')} text={t('stock.ui.countNothingText')} />
      ) : null}
      <div>
        {rows.map((row) => (
          <ToCount key={row.itemId} row={row} />
        ))}
      </div>
    </>
  );
}

function ToCount(props: { readonly row: CountPlanRow }): ReactNode {
  const t = useText();
  const manner = useManner();
  const [open, setOpen] = useState(false);
  const { row } = props;
  const { lastCountMs } = row;
  const last = lastCountMs === null ? 'never' : dayOf(manner, lastCountMs, Date.now());
  return (
    <div className={css['toCount']} data-count={row.itemId}>
      <span className="quiet cut">{row.place}</span>
      <span className={css['said']}>
        <span className="cut" title={row.itemName}>
          <LinkTo to={`/stock/items/${row.itemId}`}>{row.itemName}</LinkTo>
        </span>
        <span className={row.why === 'negative' ? 'lamp' : 'quiet'}>
          {t('stock.ui.countReason', { why: row.why, last })}
        </span>
        {open ? <CountForm itemId={row.itemId} onDone={() => setOpen(false)} /> : null}
      </span>
      <span className="quiet right">{t('stock.ui.countEvery', { of: row.of })}</span>
      {open ? <span /> : <LinkButton onPress={() => setOpen(true)}>{t('stock.ui.countNow')}</LinkButton>}
    </div>
  );
}
