import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { longFunctions } from './functionLength.ts';
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
  it('is kept: no source file over 300 lines', () => {
    const long = SOURCES.flatMap((f) => files(f, /\.(ts|tsx|mjs|css)$/)).filter((f) => tooLong(f.text));
    expect(long.map((f) => `${f.name}: ${f.text.split('\n').length}`)).toEqual([]);
  });

  it('is noticed when a file grows past 300 lines', () => {
    expect(tooLong('x\n'.repeat(301))).toBe(true);
    expect(tooLong('x\n'.repeat(299))).toBe(false);
  });
});

/** Components that still wait for a better cut. */
const LONG_COMPONENTS = [
  'CallerColumn',
  'OffersStrip',
  'WishColumn',
  'Arrived',
  'Fields',
  'ReceiveForm',
  'Call',
];

describe('the length of functions', () => {
  it('is kept: none over 40 lines in core, electron and seed', () => {
    const long = ['core', 'electron', 'seed']
      .flatMap((f) => files(f, /\.ts$/))
      // Outlines of bodies are data in the shape of calls.
      .filter((f) => !f.name.startsWith('core/shared/flatcar/'))
      .flatMap((f) => longFunctions(f.text, false).map((l) => `${f.name}: ${l.name}`));
    expect(long).toEqual([]);
  });

  it('is kept by components: none over 60 lines, and none of the few long ones over 100', () => {
    const long = files('renderer', /\.tsx?$/)
      .flatMap((f) => longFunctions(f.text, f.name.endsWith('x')).map((l) => ({ ...l, file: f.name })))
      .filter((l) => l.lines > (LONG_COMPONENTS.includes(l.name) ? 100 : 60));
    expect(long).toEqual([]);
  });

  it('is noticed when a function grows past 40 lines', () => {
    const body = 'x();\n'.repeat(39);
    expect(longFunctions(`function grown(): void {\n${body}}\n`, false)).toEqual([
      { name: 'grown', lines: 41 },
    ]);
    expect(
      longFunctions(`const ü = 'é';\nfunction fits(): void {\n${'x();\n'.repeat(38)}}\n`, false),
    ).toEqual([]);
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
