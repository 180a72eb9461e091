import type { ReactNode } from 'react';
import { count } from '#core/shared/text/format.ts';
import { panelName, panelNames } from '#core/shared/text/sayError.ts';
import { when } from '#core/shared/text/when.ts';
import type { CarRecordView, JobView } from '#core/shared/views/bookings.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useMay } from '../../bridge/person.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Head, Stack } from '../../ui/Layout.tsx';
import { PaperActs } from '../../ui/PaperActs.tsx';

/** How the car came and went, and rules that somebody set aside. */
export function JobRecords(props: { readonly job: JobView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { job } = props;
  if (job.records.length + job.overrides.length === 0) return null;
  return (
    <section>
      <Head level={3} title={t('jobs.records')} />
      <Stack gap={1}>
        {job.records.map((record) => (
          <OneRecord key={record.id} job={job} record={record} />
        ))}
      </Stack>
      {job.overrides.map((o) => (
        <p key={`${o.rule}${o.atMs}`} className="lit">
          {t('card.override', {
            rule: o.rule,
            panels: panelNames(manner.locale, o.panels, job.vehicle.body),
            by: o.by,
            reason: o.reason,
          })}
        </p>
      ))}
    </section>
  );
}

/** What was written down when the car came or went, and the sheet of it. */
function OneRecord(props: { readonly job: JobView; readonly record: CarRecordView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { job, record: r } = props;
  return (
    <div>
      <strong>{t('jobs.record', { kind: r.kind, when: when(manner, r.atMs, Date.now()) })}</strong>
      <p className="quiet">
        {t('jobs.recordLine', {
          mileage: r.mileage === null ? '–' : count(manner, r.mileage),
          unit: r.mileageUnit,
          keys: r.keyCount,
          by: r.agreedBy,
        })}
      </p>
      {r.belongings === '' ? null : <p className="quiet">{t('jobs.belongings', { what: r.belongings })}</p>}
      {r.note === '' ? null : <p className="quiet">{t('jobs.recordNote', { note: r.note })}</p>}
      {r.damage.map((d) => (
        <p key={`${d.panel}${d.note}`} className="quiet">
          {panelName(manner.locale, d.panel, job.vehicle.body)}: {d.note}
        </p>
      ))}
      <RecordPaper job={job} recordId={r.id} />
    </div>
  );
}

function RecordPaper(props: { readonly job: JobView; readonly recordId: string }): ReactNode {
  const { job, recordId } = props;
  const which = { jobId: job.id, recordId };
  const pdf = useDocument('bookings.recordFile');
  const draft = useDocument('bookings.recordDraft');
  const desk = useMay('desk');
  return (
    <PaperActs
      quiet
      paper={{ ...pdf, open: () => pdf.open(which), save: () => pdf.save(which) }}
      mail={desk ? { ...draft, save: () => draft.save(which) } : null}
      to={job.customer}
    />
  );
}
