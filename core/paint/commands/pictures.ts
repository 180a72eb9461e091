import type { ReadCtx, WriteCtx } from '../../context.ts';
import { loadBytes, removeBytes, storeBytes } from '../../db/fileStore.ts';
import type { paintEntries } from '../../shared/catalogue/paint.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import { isLarger, PICTURE_MOST_MB } from '../../shared/fileSizes.ts';
import type { CustomerId } from '../../shared/ids.ts';
import type { DocumentFile } from '../../shared/reply.ts';
import type { JobPicturesView } from '../../shared/views/paint.ts';
import { jobTitle } from '../../views/inspection.ts';
import { pictureConsentOf, picturesOf } from '../../views/pictures.ts';
import { insertPicture, pictureRow, removePictureRow, takeBackPicturesOf } from '../store/removal.ts';
import { needPaintJob } from './notes.ts';

type In<N extends keyof typeof paintEntries> = InputOf<(typeof paintEntries)[N]>;

type Mime = 'image/jpeg' | 'image/png' | 'image/webp';

/**
 * Stores a picture: kept for the record, or also to be shown to others, never beyond what the newest record of the car
 * says the customer agreed to.
 * @throws PICTURE_NOT_AGREED, PICTURE_TOO_LARGE, PICTURE_UNREADABLE
 */
export function addPicture(ctx: WriteCtx, input: In<'paint.addPicture'>): { readonly pictureId: string } {
  const job = needPaintJob(ctx, input.jobId);
  const agreed = pictureConsentOf(ctx.db, job.jobId);
  if (agreed !== 'publish' && agreed !== input.consent) refuse('PICTURE_NOT_AGREED', { agreed });
  const bytes = Buffer.from(input.base64, 'base64');
  if (isLarger(bytes.length, PICTURE_MOST_MB)) refuse('PICTURE_TOO_LARGE', { mostMb: PICTURE_MOST_MB });
  const mime = mimeOf(bytes) ?? refuse('PICTURE_UNREADABLE', {});
  const pictureId = ctx.newId<string>();
  insertPicture(ctx.db, {
    id: pictureId,
    jobId: job.jobId,
    panel: input.panel,
    phase: input.phase,
    hash: storeBytes(ctx.db, bytes),
    mime,
    consent: input.consent,
    personId: ctx.actor?.personId ?? null,
    takenMs: ctx.now,
  });
  ctx.changed(job.jobId, 'pictures');
  return { pictureId };
}

/** Takes a picture out of the job. Its file stays: another job may hold the same one. @throws NOT_FOUND */
export function removePicture(ctx: WriteCtx, input: In<'paint.removePicture'>): null {
  if (!removePictureRow(ctx.db, input.pictureId, ctx.now))
    refuse('NOT_FOUND', { what: 'picture', id: input.pictureId });
  ctx.changed(input.pictureId, 'removedMs');
  return null;
}

/**
 * Takes back every picture of a customer's jobs and removes their files from the disk once that is kept. A file that
 * another customer's picture shares stays.
 */
export function erasePicturesOf(ctx: WriteCtx, customerId: CustomerId): void {
  for (const hash of takeBackPicturesOf(ctx.db, customerId, ctx.now))
    ctx.onceKept(() => removeBytes(ctx.db, hash));
}

/** Pictures of a job and what may be done with more of them. @throws NOT_FOUND */
export function jobPictures(ctx: ReadCtx, input: In<'paint.pictures'>): JobPicturesView {
  const { number, customer, makeModel, body } =
    jobTitle(ctx.db, input.jobId) ?? refuse('NOT_FOUND', { what: 'job', id: input.jobId });
  const agreed = pictureConsentOf(ctx.db, input.jobId);
  return { number, customer, makeModel, body, agreed, pictures: picturesOf(ctx.db, input.jobId) };
}

/** The bytes of a stored picture by its hash; null when its file is gone. */
export function pictureBytes(ctx: ReadCtx, hash: string): Uint8Array | null {
  return loadBytes(ctx.db, hash);
}

/** The picture itself. @throws NOT_FOUND when it or its file is gone */
export function pictureDocument(ctx: ReadCtx, input: In<'paint.picture'>): () => Promise<DocumentFile> {
  const row = pictureRow(ctx.db, input.pictureId);
  const bytes = row && row.removedMs === null ? loadBytes(ctx.db, row.hash) : null;
  if (!row || !bytes) return refuse('NOT_FOUND', { what: 'picture', id: input.pictureId });
  const file: DocumentFile = { fileName: `${row.id}.${row.mime.slice(6)}`, mime: row.mime, bytes };
  return async () => file;
}

/** Kind of picture by its first bytes, never by its name. @source the signatures of PNG, JFIF/Exif and RIFF WebP */
function mimeOf(bytes: Uint8Array): Mime | null {
  const head = String.fromCharCode(...bytes.slice(0, 12));
  if (head.startsWith('\u00FF\u00D8\u00FF')) return 'image/jpeg';
  if (head.startsWith('\u0089PNG\r\n\u001A\n')) return 'image/png';
  return head.startsWith('RIFF') && head.endsWith('WEBP') ? 'image/webp' : null;
}
