import { mkdirSync, mkdtempSync, readdirSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { cruiseTree } from './cruise.ts';
import { importRules } from './importRules.ts';

const root = path.resolve(import.meta.dirname, '../..');
const FOLDERS = ['core', 'electron', 'renderer', 'seed'];

function sources(folder: string): string[] {
  return readdirSync(path.join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((f) => /\.(ts|tsx|mjs)$/.test(f))
    .map((f) => `${folder}/${f.split(path.sep).join('/')}`);
}

/** rule → files to plant: path → text. Each breaks that rule. */
const PLANTED: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'no-cycles': {
    'core/db/a.ts': "import { b } from './b.ts'; export const a = b;",
    'core/db/b.ts': "import { a } from './a.ts'; export const b = a;",
  },
  'shared-imports-only-shared': {
    'core/shared/a.ts': "import { b } from '../db/b.ts'; export const a = b;",
    'core/db/b.ts': 'export const b = 1;',
  },
  'shared-has-no-node': { 'core/shared/a.ts': "import fs from 'node:fs'; export const a = fs;" },
  'rules-are-pure': {
    'core/bays/rules/a.ts': "import { b } from '../store.ts'; export const a = b;",
    'core/bays/store.ts': 'export const b = 1;',
  },
  'rules-have-no-node': { 'core/bays/rules/a.ts': "import fs from 'node:fs'; export const a = fs;" },
  'rules-have-no-database': { 'core/bays/rules/a.ts': "import D from 'better-sqlite3'; export const a = D;" },
  'store-writes-only': {
    'core/bays/store.ts': "import { b } from './rules/b.ts'; export const a = b;",
    'core/bays/rules/b.ts': 'export const b = 1;',
  },
  'store-own-area': {
    'core/bays/store.ts': "import { b } from '../stock/store.ts'; export const a = b;",
    'core/stock/store.ts': 'export const b = 1;',
  },
  'commands-own-store': {
    'core/bays/commands.ts': "import { b } from '../stock/store.ts'; export const a = b;",
    'core/stock/store.ts': 'export const b = 1;',
  },
  'commands-not-flows': {
    'core/bays/commands.ts': "import { b } from '../flows/b.ts'; export const a = b;",
    'core/flows/b.ts': 'export const b = 1;',
  },
  'flows-not-stores': {
    'core/flows/a.ts': "import { b } from '../stock/store.ts'; export const a = b;",
    'core/stock/store.ts': 'export const b = 1;',
  },
  'views-read-only': {
    'core/views/a.ts': "import { b } from '../stock/store.ts'; export const a = b;",
    'core/stock/store.ts': 'export const b = 1;',
  },
  'doctor-reads-only': {
    'core/doctor/a.ts': "import { b } from '../stock/store.ts'; export const a = b;",
    'core/stock/store.ts': 'export const b = 1;',
  },
  'documents-no-sql': {
    'core/documents/a.ts': "import { b } from '../db/b.ts'; export const a = b;",
    'core/db/b.ts': 'export const b = 1;',
  },
  'only-host-has-contract': {
    'core/flows/a.ts': "import { b } from '../contract.ts'; export const a = b;",
    'core/contract.ts': 'export const b = 1;',
  },
  'only-db-opens-sqlite': {
    'core/views/a.ts': "import D from 'better-sqlite3'; export const a = new D('');",
  },
  'electron-is-thin': {
    'electron/a.ts': "import { b } from '../core/db/b.ts'; export const a = b;",
    'core/db/b.ts': 'export const b = 1;',
  },
  'core-has-no-windows': { 'core/views/a.ts': "import { app } from 'electron'; export const a = app;" },
  'renderer-sees-shared': {
    'renderer/ui/a.ts': "import { b } from '../../core/db/b.ts'; export const a = b;",
    'core/db/b.ts': 'export const b = 1;',
  },
  'languages-only-by-papers': {
    'core/shared/text/a.ts': "import { b } from './fr.ts'; export const a = b;",
    'core/shared/text/fr.ts': 'export const b = 1;',
  },
  'screens-load-no-papers': {
    'renderer/ui/a.ts': "import { b } from '../../core/shared/text/papers.ts'; export const a = b;",
    'core/shared/text/papers.ts': 'export const b = 1;',
  },
  'renderer-has-no-node': { 'renderer/ui/a.ts': "import fs from 'node:fs'; export const a = fs;" },
  'renderer-has-no-electron': { 'renderer/ui/a.ts': "import { app } from 'electron'; export const a = app;" },
  'features-stand-alone': {
    'renderer/features/desk/a.ts': "import { b } from '../bays/b.ts'; export const a = b;",
    'renderer/features/bays/b.ts': 'export const b = 1;',
  },
  'widgets-know-no-features': {
    'renderer/ui/a.ts': "import { b } from '../features/bays/b.ts'; export const a = b;",
    'renderer/features/bays/b.ts': 'export const b = 1;',
  },
  'seed-uses-the-door': {
    'seed/a.ts': "import { b } from '../core/db/b.ts'; export const a = b;",
    'core/db/b.ts': 'export const b = 1;',
  },
  'nobody-imports-tests-or-seed': {
    'core/views/a.ts': "import { b } from '../../seed/b.ts'; export const a = b;",
    'seed/b.ts': 'export const b = 1;',
  },
};

async function plant(files: Readonly<Record<string, string>>): Promise<readonly string[]> {
  const dir = realpathSync(mkdtempSync(path.join(os.tmpdir(), 'rakelight-planted-')));
  try {
    for (const name of ['better-sqlite3', 'electron']) {
      mkdirSync(path.join(dir, 'node_modules', name), { recursive: true });
      writeFileSync(path.join(dir, 'node_modules', name, 'index.js'), '');
      writeFileSync(
        path.join(dir, 'node_modules', name, 'package.json'),
        JSON.stringify({ name, version: '1.0.0', main: 'index.js' }),
      );
    }
    writeFileSync(
      path.join(dir, 'package.json'),
      JSON.stringify({ type: 'module', dependencies: { 'better-sqlite3': '1', electron: '1' } }),
    );
    for (const [file, text] of Object.entries(files)) {
      mkdirSync(path.dirname(path.join(dir, file)), { recursive: true });
      writeFileSync(path.join(dir, file), text);
    }
    const folders = FOLDERS.filter((f) => Object.keys(files).some((file) => file.startsWith(`${f}/`)));
    return (await cruiseTree(dir, folders)).violations.map((v) => v.rule);
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
}

describe('who may import whom', () => {
  it('is kept by every source file, and every source file was looked at', async () => {
    const { modules, violations } = await cruiseTree(root, FOLDERS);
    expect(violations).toEqual([]);
    expect([...modules].sort()).toEqual(FOLDERS.flatMap(sources).sort());
  });

  it('has a planted violation for every rule', () => {
    expect(Object.keys(PLANTED).sort()).toEqual(importRules.forbidden.map((r) => r.name).sort());
  });

  it.each(Object.entries(PLANTED))('catches a violation of %s', async (rule, files) => {
    expect(await plant(files)).toContain(rule);
  });
});
