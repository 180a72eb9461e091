import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import os from 'node:os';
import path from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { freshDataDir } from './desktopApp.ts';
import { folderState } from './folderState.ts';
import { type HostProcess, startBrowserHost, startProgram } from './hostProcess.ts';

let base: string;
let dataDir: string;

beforeEach(() => {
  base = freshDataDir();
  dataDir = path.join(base, 'shop');
});
afterEach(() => {
  rmSync(base, { recursive: true, force: true });
});

/** Starts, expects a refusal, and that not one byte of the folder changed. */
async function expectRefusal(
  code: number,
  sentence: RegExp,
  ...args: readonly string[]
): Promise<HostProcess> {
  const before = folderState(base);
  const program = startProgram('start', ['--browser', '--data', dataDir, ...args]);
  expect(await program.exited()).toBe(code);
  expect(program.errors()).toMatch(sentence);
  expect(program.errors()).not.toMatch(/\bat .*\.js:\d/);
  expect(program.output()).not.toContain('ready at');
  expect(folderState(base)).toEqual(before);
  return program;
}

async function makeShop(): Promise<string> {
  await (await startBrowserHost(dataDir)).stop();
  return path.join(dataDir, 'rakelight.sqlite');
}

describe('starting Rakelight', () => {
  it('explains its options and starts nothing', async () => {
    const program = startProgram('start', ['--help', '--data', dataDir]);
    expect(await program.exited()).toBe(0);
    for (const option of ['--demo', '--data <folder>', '--browser', '--port <n>'])
      expect(program.output()).toContain(option);
    expect(folderState(dataDir)).toBeNull();
  });

  it.each([
    [['--bay'], /--bay does not fit: it is not known/],
    [['--port'], /--port does not fit: a number from 1024 to 65535/],
    [['--port', '80'], /a number from 1024 to 65535/],
    [['--port', '70000'], /a number from 1024 to 65535/],
    [['--port', '8e3'], /a number from 1024 to 65535/],
    [['--data'], /--data does not fit: a folder name has to follow/],
  ])('refuses the options %j', async (args, sentence) => {
    await expectRefusal(2, sentence, ...args);
  });

  it('says why there is no window, in one line, and gives its link alone on a line', async () => {
    const program = startProgram('start', ['--data', dataDir]);
    await program.said(/^Rakelight is ready at http:\/\/127\.0\.0\.1:\d+\/#c=[\w-]{32}$/m);
    expect(program.output().split('\n')[0]).toBe(
      'There is no display here, so Rakelight runs in the web browser.',
    );
    expect(await program.stop()).toBe(0);
  });

  it('keeps its data where only its user can read it', async () => {
    const host = await startBrowserHost(dataDir);
    const { statSync } = await import('node:fs');
    const modes = ['.', 'rakelight.token', 'rakelight.lock'].map(
      (f) => statSync(path.join(dataDir, f)).mode & 0o777,
    );
    await host.stop();
    expect(modes).toEqual([0o700, 0o600, 0o600]);
  });

  it('refuses a port that is in use before it touches the folder', async () => {
    const other = createServer();
    await new Promise<void>((done) => other.listen(0, '127.0.0.1', done));
    const address = other.address();
    const port = typeof address === 'object' && address !== null ? address.port : 0;
    await expectRefusal(11, new RegExp(`Port ${port} is used by another program`), '--port', String(port));
    expect(folderState(dataDir)).toBeNull();
    await new Promise((done) => other.close(done));
  });

  it('uses the port it is given', async () => {
    const host = await startBrowserHost(dataDir, '--port', '38217');
    expect(host.origin).toBe('http://127.0.0.1:38217');
    await host.stop();
  });

  it('refuses a folder below a file', async () => {
    writeFileSync(path.join(base, 'file'), '');
    dataDir = path.join(base, 'file', 'shop');
    await expectRefusal(12, /cannot be written/);
  });

  it.skipIf(process.getuid?.() === 0)('refuses a folder that may not be written', async () => {
    mkdirSync(dataDir, { mode: 0o500 });
    await expectRefusal(12, /cannot be written \(EACCES\)/);
  });

  it('refuses a folder that a running Rakelight has open, which goes on undisturbed', async () => {
    const first = await startBrowserHost(dataDir);
    const second = startProgram('start', ['--browser', '--data', dataDir]);
    expect(await second.exited()).toBe(13);
    expect(second.errors()).toContain(`already running on ${dataDir} (process ${first.child.pid})`);
    expect((await fetch(first.origin)).status).toBe(200);
    expect(await first.stop()).toBe(0);
  });

  it('takes over from one that was killed', async () => {
    const first = await startBrowserHost(dataDir);
    first.child.kill('SIGKILL');
    await first.exited();
    expect(Object.keys(folderState(dataDir) ?? {})).toContain('rakelight.lock');
    const second = await startBrowserHost(dataDir);
    expect(await second.stop()).toBe(0);
  });

  it('does not take a later process with the same number for the owner', async () => {
    mkdirSync(dataDir);
    const dead = { machine: os.hostname(), pid: process.pid, born: 'another boot 1', controlPort: 0 };
    writeFileSync(path.join(dataDir, 'rakelight.lock'), JSON.stringify(dead));
    const host = await startBrowserHost(dataDir);
    expect(await host.stop()).toBe(0);
  });

  it('refuses a folder that another computer has open, and says which and how to end that', async () => {
    mkdirSync(dataDir);
    const owner = { machine: 'counter-left', pid: 7, born: '', controlPort: 0 };
    writeFileSync(path.join(dataDir, 'rakelight.lock'), JSON.stringify(owner));
    await expectRefusal(
      14,
      /computer “counter-left” has the data folder .* delete the file .*rakelight\.lock/,
    );
  });

  it('refuses a folder that a sync service copies', async () => {
    writeFileSync(path.join(base, '.stfolder'), '');
    await expectRefusal(16, /inside .*, which a sync service copies/);
  });

  it('refuses a shop file of a newer program', async () => {
    const file = await makeShop();
    const db = new Database(file);
    db.pragma('user_version = 9999');
    db.close();
    await expectRefusal(17, /written by a newer Rakelight. It was not touched/);
  });

  it('refuses a damaged shop file and names the copies', async () => {
    const file = await makeShop();
    const bytes = readFileSync(file);
    bytes.fill(0x5a, 4096, 40_960);
    writeFileSync(file, bytes);
    await expectRefusal(18, /does not read cleanly. It was left as it is .* Copies are in .*backups/);
  });

  it('refuses a file that is no shop file at all', async () => {
    mkdirSync(dataDir);
    writeFileSync(
      path.join(dataDir, 'rakelight.sqlite'),
      'a shopping list, long enough to be looked at'.repeat(99),
    );
    await expectRefusal(18, /does not read cleanly/);
  });
});
