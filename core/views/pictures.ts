import { allRows, oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { JobId } from '../shared/ids.ts';
import type { PictureConsent, PictureView } from '../shared/views/paint.ts';

const PICTURES = `SELECT id, panel, phase, taken_ms AS takenMs, consent FROM picture
  WHERE job_id = :jobId AND removed_ms IS NULL ORDER BY taken_ms, id`;

/** Pictures of a job that stand, oldest first. */
export function picturesOf(db: ReadDb, jobId: JobId): readonly PictureView[] {
  return allRows<PictureView>(db, PICTURES, { jobId });
}

const CONSENT = `SELECT pictures_record AS record, pictures_publish AS publish FROM car_record
  WHERE job_id = :jobId ORDER BY at_ms DESC, id DESC LIMIT 1`;

/** What the customer agreed to about pictures in the newest record of the car; `notAsked` before there is one. */
export function pictureConsentOf(db: ReadDb, jobId: JobId): PictureConsent {
  const said = oneRow<{ readonly record: 0 | 1; readonly publish: 0 | 1 }>(db, CONSENT, { jobId });
  if (!said) return 'notAsked';
  if (said.publish === 1) return 'publish';
  return said.record === 1 ? 'record' : 'none';
}
