/** What the test process and the stand-in inside the main process ask of each other. */
export type Frame = { readonly url: string; readonly parent: Frame | null };
export type Served = {
  readonly status: number;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: Uint8Array;
};
export type NavigationKind = 'whole' | 'frame';
export type WindowRequest = {
  readonly width: number;
  readonly height: number;
  readonly preload: string;
  /** Web permissions that the session's handlers would grant. */
  readonly granted: readonly string[];
};
export type Facts = {
  readonly sandboxedAll: boolean;
  readonly privileges: Readonly<Record<string, unknown>>;
  readonly preferences: readonly Readonly<Record<string, unknown>>[];
  readonly channels: readonly string[];
  /** Whether a page would be given a device; Electron does when nobody answers. */
  readonly deviceGranted: boolean;
};

/** Asked of the main process. */
export type ToMain = {
  readonly start: () => void;
  readonly quit: () => void;
  readonly evaluate: (source: string, argument: unknown) => unknown;
  readonly facts: () => Facts;
  readonly serve: (
    url: string,
    method: string,
    headers: Readonly<Record<string, string>>,
    body: Uint8Array | null,
  ) => Promise<Served | null>;
  readonly invoke: (windowId: number, frame: Frame, channel: string, args: readonly unknown[]) => unknown;
  /** True when the page may go there. */
  readonly mayNavigate: (windowId: number, kind: NavigationKind, url: string) => boolean;
  readonly mayOpen: (windowId: number, url: string) => boolean;
  readonly loaded: (windowId: number, url: string, title: string) => void;
  readonly closed: (windowId: number) => void;
};

/** Asked of the test process, which owns the browser. */
export type ToTest = {
  readonly schemes: (names: readonly string[]) => void;
  readonly createWindow: (windowId: number, request: WindowRequest) => Promise<void>;
  readonly destroyWindow: (windowId: number) => Promise<void>;
  readonly load: (windowId: number, url: string) => Promise<void>;
  readonly send: (windowId: number, channel: string, args: readonly unknown[]) => Promise<void>;
  readonly pdf: (windowId: number, options: Readonly<Record<string, unknown>>) => Promise<Uint8Array>;
};
