import { type ReactNode, useState } from 'react';
import { amountOf } from '#core/shared/text/format.ts';
import { amountText, type Manner } from '#core/shared/text/manner.ts';
import { dayOf, dayText } from '#core/shared/text/when.ts';
import { addLocalDays } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { ContainerView } from '#core/shared/views/stockContainers.ts';
import type { StockItemDetail, StockItemPage } from '#core/shared/views/stockItem.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Head, Row, Stack } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './Containers.module.css';
import { OpenForm } from './OpenForm.tsx';
import { RestForm } from './RestForm.tsx';

/** Bottles, tubs and rolls in use: what is left in each and how long it keeps. */
export function Containers(props: {
  readonly page: Pick<StockItemPage, 'item' | 'today'> & { readonly row: { readonly onHand: number } };
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { item, row, today } = props.page;
  const open = useQuery('stock.containers', { itemId: item.id });
  const [adding, setAdding] = useState(false);
  const inUse = open.data ?? [];
  const sealed = row.onHand - inUse.reduce((sum, c) => sum + c.rest, 0);
  const note = amountText(amountOf(manner, item.unit, Math.max(0, sealed)));
  return (
    <section aria-label={t('stock.ui.containers')}>
      <Head
        level={3}
        title={t('stock.ui.containers')}
        note={inUse.length > 0 ? t('stock.ui.containersNote', { sealed: note }) : undefined}
      >
        {adding ? null : (
          <LinkButton quiet onPress={() => setAdding(true)}>
            {t('stock.ui.openOne')}
          </LinkButton>
        )}
      </Head>
      <Refusal refusal={open.error} />
      <Stack gap={2}>
        {adding ? <OpenForm item={item} today={today} onDone={() => setAdding(false)} /> : null}
        {open.data && inUse.length === 0 && !adding ? (
          <p className="quiet">{t('stock.ui.containersNone')}</p>
        ) : null}
        {inUse.map((c) => (
          <Container key={c.id} of={c} item={item} today={today} />
        ))}
      </Stack>
    </section>
  );
}

type LineProps = {
  readonly of: ContainerView;
  readonly item: StockItemDetail;
  readonly today: LocalDay;
};

function Container(props: LineProps): ReactNode {
  const t = useText();
  const manner = useManner();
  const [reading, setReading] = useState(false);
  const { of, item, today } = props;
  const past = of.throwDay !== null && of.throwDay <= today;
  const amount = (value: number): string => amountText(amountOf(manner, of.unit, value));
  return (
    <div className={css['container']} data-lit={past} data-container={of.id}>
      <Level share={of.rest / of.holds} />
      <div className={css['said']}>
        <p>
          <b className="num">{t('stock.ui.restOf', { rest: amount(of.rest), holds: amount(of.holds) })}</b>{' '}
          <span className="quiet">
            {t('stock.ui.restHow', { how: of.how, day: dayOf(manner, of.readMs) })}
          </span>
        </p>
        <p className={past ? 'lamp' : 'quiet'}>{openedText(t, manner, of, past)}</p>
        {reading ? (
          <RestForm of={of} onDone={() => setReading(false)} />
        ) : (
          <Acts of={of} item={item} past={past} onRead={() => setReading(true)} />
        )}
      </div>
    </div>
  );
}

function openedText(t: Say, manner: Manner, of: ContainerView, past: boolean): string {
  const said = t('stock.ui.openedLine', {
    day: dayText(manner, of.openedDay),
    kept: of.throwDay === null ? 'never' : dayText(manner, addLocalDays(of.throwDay, -1)),
    batch: of.batch === '' ? 'none' : of.batch,
  });
  const since = of.throwDay === null ? '' : dayText(manner, of.throwDay);
  return past ? `${said}; ${t('stock.ui.openedPast', { day: since })}` : said;
}

function Acts(props: {
  readonly of: ContainerView;
  readonly item: StockItemDetail;
  readonly past: boolean;
  readonly onRead: () => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const close = useCommand('stock.closeContainer');
  const { of, past } = props;
  const why = past
    ? t('stock.why.opened', {
        opened: dayText(manner, of.openedDay),
        kept: dayText(manner, addLocalDays(of.throwDay ?? of.openedDay, -1)),
      })
    : '';
  const end = (as: 'empty' | 'thrown'): void => void close.run({ containerId: of.id, as, why });
  return (
    <>
      <Row>
        <LinkButton onPress={props.onRead}>{t('stock.ui.readRest')}</LinkButton>
        <LinkButton onPress={() => end('empty')}>{t('stock.ui.usedUp')}</LinkButton>
        {past ? <LinkButton onPress={() => end('thrown')}>{t('stock.ui.throwAway')}</LinkButton> : null}
      </Row>
      <Refusal refusal={close.refusal} />
    </>
  );
}

/** How full it is, in a drawn glass with a mark at each quarter; the figure stands beside it. */
function Level(props: { readonly share: number }): ReactNode {
  const height = 46 * Math.min(1, Math.max(0, props.share));
  return (
    <svg className={css['level']} width="20" height="48" viewBox="0 0 20 48" aria-hidden="true">
      <rect className={css['fill']} x="1" y={47 - height} width="18" height={height} />
      <path className={css['glass']} d="M.5 .5v47h19v-47M.5 12.5h4M.5 24.500h6M.5 36.500h4" />
    </svg>
  );
}
