import type { ReadCtx, WriteCtx } from '../../context.ts';
import type { paintEntries } from '../../shared/catalogue/paint.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import type { DocumentFile } from '../../shared/reply.ts';
import { loadPicture, storePicture } from '../store/pictureFiles.ts';
import { insertPicture, pictureRow, removePictureRow } from '../store/removal.ts';
import { needPaintJob } from './notes.ts';

type In<N extends keyof typeof paintEntries> = InputOf<(typeof paintEntries)[N]>;

const MOST_MB = 4;
type Mime = 'image/jpeg' | 'image/png' | 'image/webp';

/**
 * Stores a picture with what the owner agreed to: kept for the record, or also shown to others.
 * @throws PICTURE_TOO_LARGE, PICTURE_UNREADABLE
 */
export function addPicture(ctx: WriteCtx, input: In<'paint.addPicture'>): { readonly pictureId: string } {
  const job = needPaintJob(ctx, input.jobId);
  const bytes = Buffer.from(input.base64, 'base64');
  if (bytes.length > MOST_MB * 1024 * 1024) refuse('PICTURE_TOO_LARGE', { mostMb: MOST_MB });
  const mime = mimeOf(bytes) ?? refuse('PICTURE_UNREADABLE', {});
  const pictureId = ctx.newId<string>();
  insertPicture(ctx.db, {
    id: pictureId,
    jobId: job.jobId,
    panel: input.panel,
    phase: input.phase,
    hash: storePicture(ctx.db, bytes),
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

/** The picture itself. @throws NOT_FOUND when it or its file is gone */
export function pictureDocument(ctx: ReadCtx, input: In<'paint.picture'>): () => Promise<DocumentFile> {
  const row = pictureRow(ctx.db, input.pictureId);
  const bytes = row && row.removedMs === null ? loadPicture(ctx.db, row.hash) : null;
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
