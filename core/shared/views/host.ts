import type { EpochMs } from '../units.ts';

export type BackupView = {
  readonly fileName: string;
  readonly bytes: number;
  readonly atMs: EpochMs;
  readonly reason: 'daily' | 'migration' | 'asked' | 'restore';
};

/** A copy just made. `missingPictures`: shown by the shop, but gone or spoiled on the disk. */
export type BackupMadeView = BackupView & { readonly missingPictures: number };

export type RestoredView = { readonly asideDir: string; readonly missingPictures: number };

export type HostInfo = {
  readonly dataDir: string;
  readonly isDemo: boolean;
  readonly version: string;
  readonly node: string;
  readonly sqlite: string;
};

/** Which folder is open after a switch. */
export type DemoView = { readonly dataDir: string; readonly isDemo: boolean };
