import path from 'node:path';
import { assertNever } from '../core/shared/errors.ts';
import { tell } from './tell.ts';

/** Why Rakelight does not start. Each has its sentence with the next step and its exit code; nothing was changed. */
export type StartRefusal =
  | { readonly kind: 'badOption'; readonly option: string; readonly problem: 'unknown' | 'noFolder' | 'port' }
  | { readonly kind: 'portInUse'; readonly port: number }
  | { readonly kind: 'notWritable'; readonly folder: string; readonly detail: string }
  | { readonly kind: 'locked'; readonly folder: string; readonly pid: number }
  | {
      readonly kind: 'lockedElsewhere';
      readonly folder: string;
      readonly machine: string;
      readonly file: string;
    }
  | { readonly kind: 'networkShare'; readonly folder: string; readonly system: string }
  | { readonly kind: 'syncFolder'; readonly folder: string; readonly synced: string }
  | {
      readonly kind: 'storage';
      readonly folder: string;
      readonly fault: 'busy' | 'full' | 'readonly' | 'damaged' | 'newer' | 'foreign';
    };

/** Carries a refusal up to the one place that prints it. */
export class StartStopped extends Error {
  readonly refusal: StartRefusal;
  constructor(refusal: StartRefusal) {
    super(`start refused: ${refusal.kind}`);
    this.name = 'StartStopped';
    this.refusal = refusal;
  }
}

/** Exit codes of refusals; the launcher of the window never answers one of these with the browser. */
export function exitCodeOf(refusal: StartRefusal): number {
  switch (refusal.kind) {
    case 'badOption':
      return 2;
    case 'portInUse':
      return 11;
    case 'notWritable':
      return 12;
    case 'locked':
      return 13;
    case 'lockedElsewhere':
      return 14;
    case 'networkShare':
      return 15;
    case 'syncFolder':
      return 16;
    case 'storage':
      return { newer: 17, damaged: 18, busy: 19, full: 20, readonly: 21, foreign: 22 }[refusal.fault];
    default:
      return assertNever(refusal);
  }
}

/** True for exit codes that say "this folder or port will not do", whichever host is tried. */
export function isRefusalCode(code: number): boolean {
  return code === 2 || (code >= 11 && code <= 22);
}

/** What happened, what is safe, what to do. */
export function sentenceOf(refusal: StartRefusal): string {
  switch (refusal.kind) {
    case 'badOption':
      return tell('start.stop.badOption', {
        option: refusal.option,
        problem: tell(`start.problem.${refusal.problem}`),
      });
    case 'portInUse':
      // As text: a port is a name, not a quantity, and takes no thousands separator.
      return tell('start.stop.portInUse', { port: String(refusal.port) });
    case 'notWritable':
      return tell('start.stop.notWritable', { folder: refusal.folder, detail: refusal.detail });
    case 'locked':
      return tell('start.stop.locked', { folder: refusal.folder, pid: String(refusal.pid) });
    case 'lockedElsewhere':
      return tell('start.stop.lockedElsewhere', {
        folder: refusal.folder,
        machine: refusal.machine,
        file: refusal.file,
      });
    case 'networkShare':
      return tell('start.stop.networkShare', { folder: refusal.folder, system: refusal.system });
    case 'syncFolder':
      return tell('start.stop.syncFolder', { folder: refusal.folder, synced: refusal.synced });
    case 'storage':
      return tell(`start.stop.${refusal.fault}`, {
        folder: refusal.folder,
        backups: path.join(refusal.folder, 'backups'),
        database: 'rakelight.sqlite',
      });
    default:
      return assertNever(refusal);
  }
}
