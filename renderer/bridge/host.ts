import type { DesktopBridge, Progress } from '#core/shared/bridge.ts';
import type { Call, DocumentFile, Reply } from '#core/shared/reply.ts';

declare global {
  interface Window {
    readonly rakelight?: DesktopBridge;
  }
}

/** What the page needs from whatever runs the core: the desktop window or the browser host. */
export type Host = {
  readonly kind: 'electron' | 'browser';
  readonly call: (call: Call) => Promise<Reply>;
  readonly cancel: (commandId: string) => Promise<void>;
  readonly onTouched: (listen: (topics: readonly string[] | 'all') => void) => () => void;
  readonly onProgress: (listen: (progress: Progress) => void) => () => void;
  /** Writes the file where the person says (desktop) or into the downloads (browser). Null when they closed the dialog. */
  readonly save: (file: DocumentFile) => Promise<string | null>;
  /** Opens it with the system's program, or in a new window of the browser; false where it was downloaded instead. */
  readonly open: (file: DocumentFile) => Promise<boolean>;
  readonly print: () => Promise<void>;
};
