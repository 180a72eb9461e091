import type { EpochMs } from '../units.ts';

export type BackupView = {
  readonly fileName: string;
  readonly bytes: number;
  readonly atMs: EpochMs;
  readonly reason: 'daily' | 'migration' | 'asked' | 'restore';
};

export type HostInfo = {
  readonly dataDir: string;
  readonly isDemo: boolean;
  readonly version: string;
  readonly node: string;
  readonly sqlite: string;
};

/** Which folder is open after a switch. */
export type DemoView = { readonly dataDir: string; readonly isDemo: boolean };
