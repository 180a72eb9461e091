import type { ReactNode } from 'react';
import { count, hours } from '#core/shared/text/format.ts';
import type { DeskView } from '#core/shared/views/desk.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Figure } from '../../ui/Figure.tsx';
import { Column, Foot, Head, Place } from '../../ui/Layout.tsx';
import { go } from '../../ui/router.ts';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { useShortcuts } from '../../ui/shortcuts.ts';
import css from './desk.module.css';
import { Next } from './Next.tsx';
import { Risks } from './Risks.tsx';
import { Today } from './Today.tsx';
import { WaitingPeople } from './WaitingPeople.tsx';

/** Today at the desk: what needs a hand on the left, the day on one rail of time to the right. */
export function Desk(): ReactNode {
  const t = useText();
  const desk = useQuery('bookings.desk', {});
  // The day is there at once; what is worked out on the board may take a moment longer.
  const risks = useQuery('bookings.risks', {}, { keep: true, when: desk.data !== undefined });
  useShortcuts({ 'Alt+N': () => go('/take-in?next') });
  if (!desk.data)
    return (
      <Place label={t('ui.place.desk')}>
        {desk.loading ? <Waiting /> : <Refusal refusal={desk.error} />}
      </Place>
    );
  const view = desk.data;
  const nothing = view.arriving.length + view.inBays.length + view.goingHome.length === 0;
  return (
    <Place label={t('ui.place.desk')} columns="left">
      <Column label={t('desk.needs')}>
        {risks.data ? (
          <Risks risks={risks.data} open={view.openPromises} nowMs={view.nowMs} asking={risks.asking} />
        ) : risks.loading ? (
          <Waiting />
        ) : (
          <Refusal refusal={risks.error} />
        )}
        <WaitingPeople waiting={view.waiting} nowMs={view.nowMs} />
      </Column>
      <Column label={t('desk.today')}>
        {view.next ? <Next next={view.next} /> : null}
        {nothing ? (
          <>
            <Head title={t('desk.today')} level={1} />
            <Empty title={t('desk.empty')} text={t('desk.emptyText')}>
              <LinkTo to="/take-in?next">{t('desk.takeCall')}</LinkTo>
            </Empty>
          </>
        ) : (
          <Today view={view} />
        )}
        <DayFoot view={view} />
      </Column>
    </Place>
  );
}

/** Hours of the day, and how many promises were kept of late. */
function DayFoot(props: { readonly view: DeskView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { hours: day, kept } = props.view;
  return (
    <Foot>
      <div className={css['foot']}>
        <span>
          {t('desk.shift')} <Figure amount={hours(manner, day.shiftMin)} strong />
        </span>
        <span>
          {t('desk.planned')} <Figure amount={hours(manner, day.plannedMin)} strong />
        </span>
        <span>
          {t('desk.worked')} <Figure amount={hours(manner, day.workedMin)} strong />
        </span>
        <span className="quiet">
          {kept.due > 0
            ? t('desk.kept', { due: count(manner, kept.due), inTime: count(manner, kept.inTime) })
            : null}
        </span>
      </div>
    </Foot>
  );
}
