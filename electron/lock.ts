import { execFileSync } from 'node:child_process';
import { linkSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { type StartRefusal, StartStopped } from './refusal.ts';

/** Who has a data folder open, as written in its lock file. */
export type Owner = {
  readonly machine: string;
  readonly pid: number;
  /** When that process was born, so that a later process with the same number is not taken for it; '' = unknown. */
  readonly born: string;
  /** Loopback port on which the owner answers the command line; 0 = not yet or not at all. */
  readonly controlPort: number;
};

export type FolderLock = {
  /** Tells the command line where to find this owner. */
  announce(controlPort: number): void;
  release(): void;
};

const TAKE_OVER_MS = 10_000;

export function lockFileOf(folder: string): string {
  return path.join(folder, 'rakelight.lock');
}

/**
 * Makes this process the only owner of the folder. A lock whose process is gone is taken over.
 * @throws StartStopped locked, lockedElsewhere
 */
export function takeLock(folder: string): FolderLock {
  const file = lockFileOf(folder);
  const self: Owner = { machine: os.hostname(), pid: process.pid, born: bornOf(process.pid), controlPort: 0 };
  for (let tries = 0; !createWhole(file, self); tries += 1) {
    const owner = readOwner(folder);
    if (owner === null) continue;
    if (!isGone(owner) || tries > 20) throw new StartStopped(heldBy(folder, owner));
    takeOver(file, owner);
  }
  return {
    announce: (controlPort) => replaceWhole(file, { ...self, controlPort }),
    release: () => {
      if (sameProcess(readOwner(folder), self)) rmSync(file, { force: true });
    },
  };
}

/** Who holds the folder now, alive or not; null when nobody does. */
export function readOwner(folder: string): Owner | null {
  try {
    return ownerFrom(readFileSync(lockFileOf(folder), 'utf8'));
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return null;
    throw error;
  }
}

/** True when the owner's process certainly no longer runs; a process of another machine is never known to be gone. */
export function isGone(owner: Owner): boolean {
  if (owner.machine !== os.hostname()) return false;
  if (!isAlive(owner.pid)) return true;
  const born = bornOf(owner.pid);
  return owner.born !== '' && born !== '' && owner.born !== born;
}

/** Locks are only ever written whole: one that cannot be read was left by a power cut, and nobody holds it. */
function ownerFrom(text: string): Owner {
  const raw = parsed(text);
  if (raw === null) return { machine: os.hostname(), pid: 0, born: '', controlPort: 0 };
  return {
    machine: String(raw.machine ?? ''),
    pid: Number(raw.pid ?? 0),
    born: String(raw.born ?? ''),
    controlPort: Number(raw.controlPort ?? 0),
  };
}

function parsed(text: string): Partial<Owner> | null {
  try {
    return JSON.parse(text) as Partial<Owner> | null;
  } catch {
    return null;
  }
}

/** Written aside and linked into place: nobody ever reads half a lock, and only one of two can win. */
function createWhole(file: string, owner: Owner): boolean {
  const aside = `${file}.${process.pid}`;
  writeFileSync(aside, JSON.stringify(owner), { mode: 0o600 });
  try {
    linkSync(aside, file);
    return true;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    // File systems without links (memory sticks) get the next best: created only if it is not there.
    return createDirectly(file, owner);
  } finally {
    rmSync(aside, { force: true });
  }
}

function createDirectly(file: string, owner: Owner): boolean {
  try {
    writeFileSync(file, JSON.stringify(owner), { mode: 0o600, flag: 'wx' });
    return true;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    throw error;
  }
}

function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : '';
}

function replaceWhole(file: string, owner: Owner): void {
  const aside = `${file}.${process.pid}`;
  writeFileSync(aside, JSON.stringify(owner), { mode: 0o600 });
  renameSync(aside, file);
}

/** Removes a dead owner's lock. Guarded, because two starters may both have seen the dead one. */
function takeOver(file: string, dead: Owner): void {
  const guard = `${file}.take`;
  if (!createWhole(guard, dead)) {
    // A starter killed between these two lines leaves the guard behind.
    if (Date.now() - (statSync(guard, { throwIfNoEntry: false })?.mtimeMs ?? Date.now()) > TAKE_OVER_MS)
      rmSync(guard, { force: true });
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 50);
    return;
  }
  try {
    if (sameProcess(readOwner(path.dirname(file)), dead)) rmSync(file, { force: true });
  } finally {
    rmSync(guard, { force: true });
  }
}

function heldBy(folder: string, owner: Owner): StartRefusal {
  return owner.machine === os.hostname()
    ? { kind: 'locked', folder, pid: owner.pid }
    : { kind: 'lockedElsewhere', folder, machine: owner.machine, file: lockFileOf(folder) };
}

function sameProcess(a: Owner | null, b: Owner): boolean {
  return a !== null && a.machine === b.machine && a.pid === b.pid && a.born === b.born;
}

function isAlive(pid: number): boolean {
  if (pid <= 0) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // Another user's process answers EPERM: it lives.
    return codeOf(error) === 'EPERM';
  }
}

/** Start of the system and of the process; '' where the system does not tell. */
function bornOf(pid: number): string {
  try {
    if (process.platform === 'linux') {
      const boot = readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim();
      // The name in parentheses may itself hold spaces; start time is the 20th field after it.
      const ticks = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ').pop()?.split(' ')[19] ?? '';
      return `${boot} ${ticks}`;
    }
    if (process.platform === 'darwin')
      return execFileSync('/bin/ps', ['-o', 'lstart=', '-p', String(pid)], { encoding: 'utf8' }).trim();
    return '';
  } catch {
    return '';
  }
}
