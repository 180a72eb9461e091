import type { Problem } from '../problems.ts';
import type { RecordKind } from '../records.ts';

export type CommonErrors = {
  /**
   * The input does not fit the command's schema; `field` is the dotted path of the first fault, `problem`
   * names its words, `limit` what that text names.
   */
  readonly BAD_INPUT: { readonly field: string; readonly problem: Problem; readonly limit?: number | string };
  readonly UNKNOWN_COMMAND: { readonly name: string };
  /** The record named by the input does not exist (any more). */
  readonly NOT_FOUND: { readonly what: RecordKind; readonly id: string };
  /** Somebody else changed the record since it was read. */
  readonly STALE: { readonly what: RecordKind };
  /** A bug: `reference` finds the stack in the log. */
  readonly INTERNAL: { readonly reference: string };
  /** The worker that was answering died; the write was either acknowledged or not done. */
  readonly WORKER_GONE: Readonly<Record<string, never>>;
  /** The page holds a figure that it cannot read; nothing was sent. */
  readonly FIGURE_UNREAD: { readonly at: string };
  /** A finished file could not be written where it was to go. */
  readonly FILE_NOT_WRITTEN: Readonly<Record<string, never>>;
  /** No program of this machine opened a finished file. */
  readonly FILE_NOT_OPENED: Readonly<Record<string, never>>;
  readonly STORAGE: { readonly kind: 'busy' | 'full' | 'readonly' | 'damaged' | 'newer' | 'foreign' };
  readonly SHOP_NOT_SET_UP: Readonly<Record<string, never>>;
};
