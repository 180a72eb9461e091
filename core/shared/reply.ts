import type { PlainError } from './errors.ts';

/** What crosses the bridge back. Plain data only. `touches`: topics that a write made stale, or that an answer hangs on. */
export type Reply<T = unknown> =
  | { readonly ok: true; readonly value: T; readonly touches: readonly string[] }
  | { readonly ok: false; readonly error: PlainError };

/** What crosses the bridge in. `commandId` makes a write repeatable: a second send returns the first reply. */
export type Call = {
  readonly name: string;
  readonly input: unknown;
  readonly commandId?: string;
  readonly session?: string;
};

/** A finished document: bytes with the name and media type it is saved under. */
export type DocumentFile = { readonly fileName: string; readonly mime: string; readonly bytes: Uint8Array };
