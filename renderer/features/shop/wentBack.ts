import type { RestoredView } from '#core/shared/views/host.ts';

/** Which copy this window went back to, and what became of the file before. */
export type WentBack = RestoredView & { readonly copyMs: number };

const KEY = 'rakelight.wentBack';

/** Kept over the new start of the window that follows; seen once it is put away. */
export function keepWentBack(went: WentBack): void {
  sessionStorage.setItem(KEY, JSON.stringify(went));
}

/** What is still to be said; null where nothing is. */
export function wentBack(): WentBack | null {
  return JSON.parse(sessionStorage.getItem(KEY) ?? 'null') as WentBack | null;
}

export function putAwayWentBack(): void {
  sessionStorage.removeItem(KEY);
}
