import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { failedToday, fetchRuntime, type RuntimePlaces, runtimeProgram } from '../../electron/runtime.ts';

let base: string;
let places: RuntimePlaces;
const limits = { silenceMs: 600, tickMs: 50 };
const DAY = 24 * 3_600_000;

beforeEach(() => {
  base = mkdtempSync(path.join(os.tmpdir(), 'rakelight-runtime-test-'));
  places = { home: path.join(base, 'electron'), memory: path.join(base, 'memory/last.json') };
  mkdirSync(places.home);
  writeFileSync(path.join(places.home, 'package.json'), '{"version":"45.4.1"}');
});
afterEach(() => {
  rmSync(base, { recursive: true, force: true });
});

/** An installer of our own that behaves as the real one may. */
function installer(code: string): void {
  writeFileSync(path.join(places.home, 'install.js'), code);
}

describe('fetching the window’s runtime', () => {
  it('finds no program where there is none, and starts nothing to find out', () => {
    expect(runtimeProgram(places.home)).toBeNull();
  });

  it('tells the bytes as they arrive and gives the program', async () => {
    installer(`const fs = require('fs'), os = require('os'), path = require('path');
      const part = path.join(os.tmpdir(), 'part');
      let n = 0;
      const timer = setInterval(() => {
        fs.appendFileSync(part, Buffer.alloc(1000));
        if (++n < 20) return;
        clearInterval(timer);
        fs.mkdirSync(path.join(__dirname, 'dist'));
        fs.writeFileSync(path.join(__dirname, 'dist', 'electron'), '');
        fs.writeFileSync(path.join(__dirname, 'path.txt'), 'electron');
      }, 60);`);
    const told: number[] = [];
    const program = await fetchRuntime(places, (bytes) => told.push(bytes), limits);
    expect(program).toBe(path.join(places.home, 'dist/electron'));
    expect(told.length).toBeGreaterThan(3);
    expect([...told].sort((a, b) => a - b)).toEqual(told);
    expect(failedToday(places, Date.now())).toBe(false);
  });

  it('gives up when no byte came for the time, however slow before, and remembers it for a day', async () => {
    installer(`const fs = require('fs'), os = require('os'), path = require('path');
      fs.writeFileSync(path.join(os.tmpdir(), 'part'), Buffer.alloc(500));
      setInterval(() => {}, 1000);`);
    const began = Date.now();
    expect(await fetchRuntime(places, () => undefined, limits)).toBeNull();
    expect(Date.now() - began).toBeGreaterThanOrEqual(600);
    expect(failedToday(places, Date.now())).toBe(true);
    expect(failedToday(places, Date.now() + DAY)).toBe(false);
    writeFileSync(path.join(places.home, 'package.json'), '{"version":"46.0.0"}');
    expect(failedToday(places, Date.now())).toBe(false);
  });

  it('remembers an installer that fails at once, and one that leaves no program', async () => {
    installer('process.exit(1)');
    expect(await fetchRuntime(places, () => undefined, limits)).toBeNull();
    expect(failedToday(places, Date.now())).toBe(true);
    rmSync(places.memory);
    installer('');
    expect(await fetchRuntime(places, () => undefined, limits)).toBeNull();
    expect(failedToday(places, Date.now())).toBe(true);
  });

  it('goes on without remembering where nothing can be written', async () => {
    writeFileSync(path.join(base, 'memory'), 'a file where the folder should be');
    chmodSync(path.join(base, 'memory'), 0o400);
    installer('process.exit(1)');
    expect(await fetchRuntime(places, () => undefined, limits)).toBeNull();
    expect(failedToday(places, Date.now())).toBe(false);
  });
});
