import { crc32, inflateSync } from 'node:zlib';
import type { ReadCtx, WriteCtx } from '../context.ts';
import { loadBytes, storeBytes } from '../db/fileStore.ts';
import { refuse } from '../shared/errors.ts';
import { isLarger, LOGO_MOST_MB, LOGO_MOST_PX } from '../shared/fileSizes.ts';
import type { DocumentFile } from '../shared/reply.ts';
import { logoOf } from '../views/logo.ts';
import { pictureHead } from './rules/logo.ts';
import { insertLogo, takeLogoOut } from './store.ts';

/**
 * Keeps the shop's logo as a file in its folder, in place of the one before. Documents that are issued already keep
 * theirs.
 * @throws LOGO_TOO_LARGE in MB or in dots; LOGO_UNREADABLE when it is no whole PNG or JPEG that documents take
 */
export function setLogo(ctx: WriteCtx, input: { readonly logoBase64: string }): null {
  const bytes = Buffer.from(input.logoBase64, 'base64');
  const tooLarge = { mostMb: LOGO_MOST_MB, mostPx: LOGO_MOST_PX };
  if (isLarger(bytes.length, LOGO_MOST_MB)) refuse('LOGO_TOO_LARGE', tooLarge);
  const head = pictureHead(bytes) ?? refuse('LOGO_UNREADABLE', {});
  if (Math.max(head.widthPx, head.heightPx) > LOGO_MOST_PX) refuse('LOGO_TOO_LARGE', tooLarge);
  if (head.mime === 'image/png' && !isWholePng(bytes)) refuse('LOGO_UNREADABLE', {});
  takeLogoOut(ctx.db, ctx.now);
  const addedMs = ctx.now;
  const personId = ctx.actor?.personId ?? null;
  insertLogo(ctx.db, { id: ctx.newId(), hash: storeBytes(ctx.db, bytes), ...head, addedMs, personId });
  ctx.changed('shop', 'logo');
  return null;
}

/** Takes the logo off documents to come. Its file stays: issued documents show it still. @throws NOT_FOUND */
export function removeLogo(ctx: WriteCtx): null {
  if (!takeLogoOut(ctx.db, ctx.now)) refuse('NOT_FOUND', { what: 'logo', id: 'shop' });
  ctx.changed('shop', 'logo');
  return null;
}

/** The logo itself. @throws NOT_FOUND when there is none, or its file is gone */
export function logoFile(ctx: ReadCtx): () => Promise<DocumentFile> {
  const logo = logoOf(ctx.db);
  const bytes = logo ? loadBytes(ctx.db, logo.hash) : null;
  if (!logo || !bytes) return refuse('NOT_FOUND', { what: 'logo', id: 'shop' });
  const fileName = `logo.${logo.mime === 'image/png' ? 'png' : 'jpg'}`;
  return async () => ({ fileName, mime: logo.mime, bytes });
}

/** Each chunk's checksum is right and its dots unpack. @source W3C PNG (third edition) 5.3, 5.5 */
function isWholePng(bytes: Buffer): boolean {
  const packed: Buffer[] = [];
  for (let at = 8; at < bytes.length; ) {
    if (at + 12 > bytes.length) return false;
    const size = bytes.readUInt32BE(at);
    if (at + 12 + size > bytes.length) return false;
    const chunk = bytes.subarray(at + 4, at + 8 + size);
    if (crc32(chunk) !== bytes.readUInt32BE(at + 8 + size)) return false;
    if (chunk.toString('latin1', 0, 4) === 'IDAT') packed.push(chunk.subarray(4));
    at += 12 + size;
  }
  try {
    return inflateSync(Buffer.concat(packed)).length > 0;
  } catch {
    return false;
  }
}
