import type { ReadCtx, WriteCtx } from '../../context.ts';
import { loadBytes, storeBytes } from '../../db/fileStore.ts';
import { refuse } from '../../shared/errors.ts';
import { isLarger, SHEET_MOST_MB } from '../../shared/fileSizes.ts';
import type { ItemId } from '../../shared/ids.ts';
import type { DocumentFile } from '../../shared/reply.ts';
import { insertSheet, type SheetRecord, sheetOf, takeSheetOut } from '../store/dataSheets.ts';
import { itemOf } from './post.ts';

/**
 * Keeps the safety data sheet of an item as a file in the shop's folder, in place of the one before.
 * @throws SHEET_TOO_LARGE; SHEET_UNREADABLE when it is no PDF, JPEG or PNG; NOT_FOUND when there is no such item
 */
export function addSheet(
  ctx: WriteCtx,
  input: { readonly itemId: ItemId; readonly calledAs: string; readonly sheetBase64: string },
): { readonly sheetId: string } {
  const item = itemOf(ctx, input.itemId);
  const bytes = Buffer.from(input.sheetBase64, 'base64');
  if (isLarger(bytes.length, SHEET_MOST_MB)) refuse('SHEET_TOO_LARGE', { mostMb: SHEET_MOST_MB });
  const mime = mimeOf(bytes) ?? refuse('SHEET_UNREADABLE', {});
  takeSheetOut(ctx.db, item.id, ctx.now);
  const id = ctx.newId<string>();
  insertSheet(ctx.db, {
    id,
    itemId: item.id,
    hash: storeBytes(ctx.db, bytes),
    mime,
    fileName: input.calledAs,
    addedMs: ctx.now,
    personId: ctx.actor?.personId ?? null,
  });
  ctx.changed(item.id, 'sheet');
  return { sheetId: id };
}

/** Takes the sheet out of the item. Its file stays: copies of the shop show it still. @throws NOT_FOUND */
export function removeSheet(ctx: WriteCtx, input: { readonly itemId: ItemId }): null {
  const item = itemOf(ctx, input.itemId);
  if (!takeSheetOut(ctx.db, item.id, ctx.now)) refuse('NOT_FOUND', { what: 'dataSheet', id: item.id });
  ctx.changed(item.id, 'sheet');
  return null;
}

/** The sheet itself. @throws NOT_FOUND when there is none, or its file is gone */
export function sheetDocument(ctx: ReadCtx, input: { readonly itemId: ItemId }): () => Promise<DocumentFile> {
  const row = sheetOf(ctx.db, input.itemId);
  const bytes = row ? loadBytes(ctx.db, row.hash) : null;
  if (!row || !bytes) return refuse('NOT_FOUND', { what: 'dataSheet', id: input.itemId });
  const file: DocumentFile = { fileName: nameOf(row), mime: row.mime, bytes };
  return async () => file;
}

const ENDINGS = { 'application/pdf': 'pdf', 'image/jpeg': 'jpg', 'image/png': 'png' } as const;

/** Named as it came, but with the ending of what it is: the system opens it by that. */
function nameOf(row: SheetRecord): string {
  const stem = row.fileName
    .replace(/\.[^.]*$/, '')
    .replace(/[^\p{L}\p{N}_-]+/gu, ' ')
    .trim();
  return `${stem === '' ? row.id : stem}.${ENDINGS[row.mime]}`;
}

/** Kind of file by its first bytes, never by its name. @source the signatures of PDF, JFIF/Exif and PNG */
function mimeOf(bytes: Uint8Array): SheetRecord['mime'] | null {
  const head = String.fromCharCode(...bytes.slice(0, 8));
  if (head.startsWith('%PDF-')) return 'application/pdf';
  if (head.startsWith('\u00FF\u00D8\u00FF')) return 'image/jpeg';
  return head === '\u0089PNG\r\n\u001A\n' ? 'image/png' : null;
}
