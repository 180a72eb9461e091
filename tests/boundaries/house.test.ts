import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { badWords, tooLong } from './houseRules.ts';

const root = path.resolve(import.meta.dirname, '../..');
const SOURCES = ['core', 'electron', 'renderer', 'seed'];

function files(folder: string, pattern: RegExp): { name: string; text: string }[] {
  return readdirSync(path.join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((f) => pattern.test(f))
    .map((f) => ({
      name: `${folder}/${f.split(path.sep).join('/')}`,
      text: readFileSync(path.join(root, folder, f), 'utf8'),
    }));
}

describe('the size of things', () => {
  it('is kept: no source file over 300 lines but contract, schema and texts', () => {
    const long = SOURCES.flatMap((f) => files(f, /\.(ts|tsx|mjs|css)$/)).filter((f) =>
      tooLong(f.name, f.text),
    );
    expect(long.map((f) => `${f.name}: ${f.text.split('\n').length}`)).toEqual([]);
  });

  it('is noticed when a file grows past 300 lines', () => {
    expect(tooLong('core/bays/rules/big.ts', 'x\n'.repeat(301))).toBe(true);
    expect(tooLong('core/bays/rules/big.ts', 'x\n'.repeat(299))).toBe(false);
    expect(tooLong('core/shared/text/en/bays.ts', 'x\n'.repeat(900))).toBe(false);
  });
});

describe('what the project never says', () => {
  it('is not said anywhere', () => {
    const all = [...SOURCES, 'tests', 'migrations'].flatMap((f) =>
      files(f, /\.(ts|tsx|mjs|css|sql|html|md|json)$/),
    );
    const pages = ['README.md', 'DEVELOPERS.md', 'package.json', '.npmrc'].flatMap((name) => {
      try {
        return [{ name, text: readFileSync(path.join(root, name), 'utf8') }];
      } catch {
        return [];
      }
    });
    const found = [...all, ...pages]
      .filter((f) => !f.name.startsWith('tests/boundaries/house'))
      .flatMap((f) => badWords(f.text).map((word) => `${f.name}: ${word}`));
    expect(found).toEqual([]);
  });

  it.each([
    ['a path of one machine', '/work/main/x'],
    ['a home folder', '/root/.npm'],
    ['a registry', 'https://registry.npmjs.org/x'],
    ['an unfinished mark', '// TODO later'],
  ])('is noticed: %s', (_what, text) => {
    expect(badWords(text).length).toBe(1);
  });
});
