import type { SentFor } from '#core/shared/catalogue.ts';
import type { JobView } from '#core/shared/views/bookings.ts';

/** What is written down when a car comes or goes, before it is sent. */
export type CarRecord = Omit<SentFor<'bookings.arrive'>, 'jobId' | 'atMs' | 'lowerMileage'>;
export type RecordKind = 'arrival' | 'handover';
export type RecordPart = {
  readonly record: CarRecord;
  readonly put: (part: Partial<CarRecord>) => void;
};

/** An empty record; a handover begins with what was written down when the car came. */
export function beginRecord(job: JobView, kind: RecordKind, miles: boolean): CarRecord {
  const came = job.records.filter((r) => r.kind === 'arrival').at(-1);
  const before = kind === 'handover' ? came : undefined;
  return {
    mileage: before?.mileage ?? null,
    mileageUnit: before?.mileageUnit ?? (miles ? 'mi' : 'km'),
    keyCount: before?.keyCount ?? 1,
    belongings: before?.belongings ?? '',
    damage: before ? [...before.damage] : [],
    picturesRecord: before?.picturesRecord ?? false,
    picturesPublish: before?.picturesPublish ?? false,
    agreedBy: job.customer.name,
    agreedWay: 'signature',
    strokes: [],
    note: '',
  };
}

/**
 * Whether work was done on a car beside looking at it and handing it over. Where a job was stopped before any, nothing is
 * billed, and so nothing that was agreed beside the work either: it is not handed over unasked.
 */
export function wasWorkedOn({ stages }: Pick<JobView, 'stages'>): boolean {
  return stages.some(
    ({ kind, state, sharePpm }) =>
      kind !== 'inspection' && kind !== 'handover' && (state === 'done' || (sharePpm ?? 0) > 0),
  );
}
