import { spawn } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { MUTANTS } from './mutants.ts';

const root = path.resolve(import.meta.dirname, '../..');
const NEEDED = /^(core|migrations|seed|tests|package\.json|vitest\.config\.ts|tsconfig.*\.json)$/;
let copy: string;

beforeAll(() => {
  copy = mkdtempSync(path.join(os.tmpdir(), 'rakelight-mutants-'));
  for (const name of readdirSync(root).filter((entry) => NEEDED.test(entry)))
    cpSync(path.join(root, name), path.join(copy, name), { recursive: true });
  symlinkSync(path.join(root, 'node_modules'), path.join(copy, 'node_modules'), 'junction');
});
afterAll(() => rmSync(copy, { recursive: true, force: true }));

/** Runs tests of the copy; says whether they passed and what they wrote. */
function runTests(files: readonly string[]): Promise<{ readonly passed: boolean; readonly output: string }> {
  const vitest = path.join(root, 'node_modules/vitest/vitest.mjs');
  const args = [vitest, 'run', '--root', copy, '--project', 'core', '--bail', '1', ...files];
  const env = { ...process.env, NO_COLOR: '1' };
  return new Promise((resolve) => {
    const child = spawn(process.execPath, args, { cwd: copy, env });
    let output = '';
    for (const stream of [child.stdout, child.stderr])
      stream.on('data', (chunk: Buffer) => {
        output += chunk.toString('utf8');
      });
    child.once('close', (code) => resolve({ passed: code === 0, output }));
  });
}

describe('the tests named for a guard', () => {
  it('pass on the program as it is', async () => {
    const { passed, output } = await runTests([...new Set(MUTANTS.flatMap((m) => m.tests))]);
    expect(passed, output).toBe(true);
  });

  it.each(MUTANTS)('fail when $what', async ({ file, find, put, tests }) => {
    const at = path.join(copy, file);
    const sound = readFileSync(at, 'utf8');
    expect(sound.split(find)).toHaveLength(2);
    writeFileSync(
      at,
      sound.replace(find, () => put),
    );
    try {
      const { passed, output } = await runTests(tests);
      expect(passed).toBe(false);
      // Noticed by a test that failed, not by a file that no longer loads.
      expect(output).toMatch(/AssertionError|Property failed|DomainError|SqliteError/);
    } finally {
      writeFileSync(at, sound);
    }
  });
});
