import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { isGone, lockFileOf, readOwner, takeLock } from '../../electron/lock.ts';
import { StartStopped } from '../../electron/refusal.ts';
import { ROOT } from './desktopApp.ts';

let folder: string;

beforeEach(() => {
  folder = mkdtempSync(path.join(os.tmpdir(), 'rakelight-lock-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

/** Tries for the lock in a process of its own and keeps it until it is told to let go. */
function contender(): { readonly answer: Promise<string>; letGo(): Promise<unknown> } {
  const code = `
    import { takeLock } from './electron/lock.ts';
    try { takeLock(process.argv[1]); console.log('got it'); process.stdin.resume(); }
    catch (error) { console.log(error.refusal.kind); }`;
  const child = spawn(process.execPath, ['--input-type=module-typescript', '-e', code, folder], {
    cwd: ROOT,
  });
  const gone = new Promise((done) => child.once('close', done));
  const answer = new Promise<string>((resolve) =>
    child.stdout.once('data', (chunk: Buffer) => resolve(chunk.toString('utf8').trim())),
  );
  return {
    answer,
    letGo: () => {
      child.kill('SIGKILL');
      return gone;
    },
  };
}

describe('the lock of a data folder', () => {
  it('is held by one only, and is free again after release', () => {
    const lock = takeLock(folder);
    expect(() => takeLock(folder)).toThrow(StartStopped);
    lock.release();
    expect(readOwner(folder)).toBeNull();
    takeLock(folder).release();
  });

  it('goes to exactly one of six that start at once over a dead owner', async () => {
    const dead = { machine: os.hostname(), pid: 2 ** 22 + 1, born: '', controlPort: 0 };
    writeFileSync(lockFileOf(folder), JSON.stringify(dead));
    const all = Array.from({ length: 6 }, contender);
    const answers = await Promise.all(all.map(({ answer }) => answer));
    await Promise.all(all.map(({ letGo }) => letGo()));
    expect([...answers].sort()).toEqual(['got it', ...Array.from({ length: 5 }, () => 'locked')]);
  });

  it('tells where its owner answers, in a file only its user can read', () => {
    const lock = takeLock(folder);
    lock.announce(40123);
    expect(readOwner(folder)).toMatchObject({ machine: os.hostname(), pid: process.pid, controlPort: 40123 });
    lock.release();
  });

  it('takes an owner on another machine for alive, always', () => {
    expect(isGone({ machine: 'counter-left', pid: 1, born: '', controlPort: 0 })).toBe(false);
    expect(isGone({ machine: os.hostname(), pid: process.pid, born: '', controlPort: 0 })).toBe(false);
  });

  it.each(['', '{"machine":"coun', 'null'])('that a power cut left as “%s” is taken over', (left) => {
    writeFileSync(lockFileOf(folder), left);
    const lock = takeLock(folder);
    expect(readOwner(folder)).toMatchObject({ machine: os.hostname(), pid: process.pid });
    lock.release();
  });

  it('is not released by one who lost it', () => {
    const lock = takeLock(folder);
    const other = { machine: 'counter-left', pid: 1, born: '', controlPort: 0 };
    writeFileSync(lockFileOf(folder), JSON.stringify(other));
    lock.release();
    expect(JSON.parse(readFileSync(lockFileOf(folder), 'utf8'))).toEqual(other);
  });
});
