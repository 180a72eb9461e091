import type { ReactNode } from 'react';
import { count } from '#core/shared/text/format.ts';
import { panelName } from '#core/shared/text/sayError.ts';
import { when } from '#core/shared/text/when.ts';
import type { JobView } from '#core/shared/views/bookings.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Head } from '../../ui/Layout.tsx';

/** How the car came and went, and rules that somebody set aside. */
export function JobRecords(props: { readonly job: JobView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { job } = props;
  if (job.records.length + job.overrides.length === 0) return null;
  const name = (panel: Parameters<typeof panelName>[1]): string =>
    panelName(manner.locale, panel, job.vehicle.body);
  return (
    <section>
      <Head level={3} title={t('jobs.records')} />
      {job.records.map((r) => (
        <div key={r.id}>
          <strong>{t('jobs.record', { kind: r.kind, when: when(manner, r.atMs, Date.now()) })}</strong>
          <p className="quiet">
            {t('jobs.recordLine', {
              mileage: r.mileage === null ? '–' : count(manner, r.mileage),
              unit: r.mileageUnit,
              keys: r.keyCount,
              by: r.agreedBy,
            })}
          </p>
          {r.belongings === '' ? null : (
            <p className="quiet">{t('jobs.belongings', { what: r.belongings })}</p>
          )}
          {r.note === '' ? null : <p className="quiet">{t('jobs.recordNote', { note: r.note })}</p>}
          {r.damage.map((d) => (
            <p key={`${d.panel}${d.note}`} className="quiet">
              {name(d.panel)}: {d.note}
            </p>
          ))}
        </div>
      ))}
      {job.overrides.map((o) => (
        <p key={`${o.rule}${o.atMs}`} className="lit">
          {t('card.override', {
            rule: o.rule,
            panels: o.panels.map(name).join(', '),
            by: o.by,
            reason: o.reason,
          })}
        </p>
      ))}
    </section>
  );
}
