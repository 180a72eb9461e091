import { loadBytes } from '../db/fileStore.ts';
import { oneRow } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { LogoView, SellerView } from '../shared/views/billing.ts';

const LOGO = `SELECT hash, mime, width_px AS widthPx, height_px AS heightPx FROM shop_logo WHERE removed_ms IS NULL`;

/** The sign that documents bear from now on. */
export function logoOf(db: ReadDb): LogoView | undefined {
  return oneRow<LogoView>(db, LOGO);
}

/** The shop as a letter names it, with the bytes of its logo; without them where the file is gone. */
export function withLogo(db: ReadDb, seller: SellerView): SellerView {
  return logosOf(db)(seller);
}

/** The same for many letters, which share the bytes of a logo: a year of documents holds them once. */
export function logosOf(db: ReadDb): (seller: SellerView) => SellerView {
  const read = new Map<string, Uint8Array | null>();
  return (seller) => {
    const { logo } = seller;
    if (!logo) return seller;
    const bytes = read.has(logo.hash) ? read.get(logo.hash) : loadBytes(db, logo.hash);
    read.set(logo.hash, bytes ?? null);
    return bytes ? { ...seller, logo: { ...logo, bytes } } : seller;
  };
}
