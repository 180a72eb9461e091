import type { ReactNode } from 'react';
import { lasting } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import type { WaitingAnswer } from '#core/shared/views/desk.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { go } from '../../ui/router.ts';
import { CalmNote } from '../../ui/States.tsx';
import css from './desk.module.css';

const DAY_MIN = 1440;

/** People who wait for an answer from the shop, or whose answer the shop waits for; longest first. */
export function WaitingPeople(props: {
  readonly waiting: readonly WaitingAnswer[];
  readonly nowMs: number;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  return (
    <section className={css['part']} aria-label={t('desk.waiting')}>
      <Head title={t('desk.waiting')} note={t('desk.people', { count: props.waiting.length })} />
      {props.waiting.length === 0 ? <CalmNote>{t('desk.noWaiting')}</CalmNote> : null}
      <List label={t('desk.waiting')}>
        {props.waiting.map((w) => {
          const min = Math.max(0, Math.floor((props.nowMs - w.sinceMs) / 60_000));
          const to =
            w.what === 'quoteOpen' || w.what === 'testSpot' ? `/jobs/${w.jobId}/quote` : `/jobs/${w.jobId}`;
          return (
            <Item key={`${w.jobId}${w.what}`} onPress={() => go(to)}>
              <span className={css['wait']}>
                <span className="cut strong">{w.customer}</span>
                <span className="cut quiet">{t(`desk.wait.${w.what}`)}</span>
                <span className={min > 2 * DAY_MIN ? 'lamp num' : 'num quiet'}>
                  {amountText(lasting(manner, min))}
                </span>
              </span>
            </Item>
          );
        })}
      </List>
    </section>
  );
}
