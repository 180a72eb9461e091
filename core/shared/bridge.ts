import type { Call, DocumentFile, Reply } from './reply.ts';

/** How far a long computation has come; `note` is whatever the computation wants to show meanwhile. */
export type Progress = {
  readonly commandId: string;
  readonly done: number;
  readonly total: number;
  readonly note?: unknown;
};

/** Where a file went; null when the person closed the dialog. */
export type SavedFile = { readonly saved: string | null };

/**
 * What the desktop window finds as `window.rakelight`. In a browser the property is missing and the page
 * speaks the HTTP contract below; both carry the same `Call` and `Reply`.
 *
 * HTTP contract (same origin only; every request is POST with `content-type: application/json`, and all but
 * `/session` carry `authorization: Bearer <token>`; answers carry no CORS header, there are no cookies):
 * - `/session` `{ code }` → 200 `{ token }`; 401 when the code was used already or is unknown. The code is in
 *   the page address as `#c=<code>`: take it out with `history.replaceState`, keep the token in `sessionStorage`.
 * - `/rpc` `Call` → 200 `Reply`; body ≤ 1 MB, otherwise 413.
 * - `/picture` `Call` → 200 `Reply`; the same for entries that carry a file (`carriesFile`), body ≤ 24 MB.
 * - `/cancel` `{ commandId }` → 204; the call itself then answers with what it has so far.
 * - `/events` `{}` → 200 `application/x-ndjson`, never ending: one `HostEvent` as JSON on each line.
 *   Read it with `response.body.getReader()`; when it ends, wait a second, refresh everything, ask again.
 * - 401 on any of them: the token is not known (the host was started afresh); show "use the start link".
 * Bytes travel as `{ "$bytes": "<base64>" }` in both directions (see `wire.ts`).
 */
export type DesktopBridge = {
  readonly host: 'electron';
  call(call: Call): Promise<Reply>;
  /** Asks a running task to stop; its call answers with what it has so far. */
  cancel(commandId: string): Promise<void>;
  /**
   * Topics whose queries are stale, from any window or the command line; `*` stands for all of them (another
   * shop file was opened). Returns the way to stop listening.
   */
  onTouched(listen: (topics: readonly string[]) => void): () => void;
  onProgress(listen: (progress: Progress) => void): () => void;
  /** Asks where to, then writes the file. */
  saveFile(file: DocumentFile): Promise<SavedFile>;
  /** Opens a file that this window saved before; anything else is refused. */
  openFile(path: string): Promise<{ readonly opened: boolean }>;
  /** Writes the file to a private folder and opens it with the system's program for it (read, print). */
  openDocument(file: DocumentFile): Promise<{ readonly opened: boolean }>;
  /** Puts plain text on the system's clipboard. */
  copyText(text: string): Promise<void>;
  /** Prints the window as it stands, through the system's print dialog. */
  printWindow(): Promise<{ readonly printed: boolean }>;
};

/** One line of the `/events` stream. `alive` comes every 15 s so that a lost connection is noticed. */
export type HostEvent =
  | { readonly event: 'touched'; readonly topics: readonly string[] }
  | { readonly event: 'progress'; readonly progress: Progress }
  | { readonly event: 'alive' };

/** Entries that send a whole file: their name ends in what it is. */
export function carriesFile(name: string): boolean {
  return name.endsWith('Picture') || name.endsWith('Sheet');
}

/** Largest request body of `/rpc` and of `/picture`, in bytes. */
export const MAX_BODY_BYTES = 1_000_000;
export const MAX_PICTURE_BODY_BYTES = 24_000_000;
