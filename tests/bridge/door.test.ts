import { rmSync, statSync } from 'node:fs';
import path from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { catalogue } from '#core/shared/catalogue.ts';
import { freshDataDir } from './desktopApp.ts';
import { type RunningHost, startBrowserHost, startProgram } from './hostProcess.ts';
import { pagePost, rawHttp } from './rawHttp.ts';
import { SHOP } from './sampleShop.ts';

let dataDir: string;
let host: RunningHost | null = null;

beforeEach(() => {
  dataDir = freshDataDir();
});
afterEach(async () => {
  await host?.stop();
  host = null;
  rmSync(dataDir, { recursive: true, force: true });
});

type Ended = { readonly code: number | null; readonly output: string; readonly errors: string };

async function run(program: string, ...args: readonly string[]): Promise<Ended> {
  const started = startProgram(program, args);
  started.child.stdin?.end();
  const code = await started.exited();
  return { code, output: started.output(), errors: started.errors() };
}

const door = (...args: readonly string[]): Promise<Ended> => run('door', ...args, '--data', dataDir);
const value = (ended: Ended): unknown => (JSON.parse(ended.output) as { value: unknown }).value;

describe('the door on the command line', () => {
  it('lists every action with the JSON schema of its input', async () => {
    const { code, output } = await run('door', '--list');
    const listed = JSON.parse(output) as { name: string; input: { $schema?: string } }[];
    expect(code).toBe(0);
    expect(listed.map((entry) => entry.name)).toEqual(Object.keys(catalogue));
    for (const entry of listed) expect(entry.input.$schema, entry.name).toContain('json-schema.org');
  });

  it('opens the folder itself when nobody has it open, and leaves no lock behind', async () => {
    expect(value(await door('host.info'))).toMatchObject({ dataDir, isDemo: false });
    await door('shop.setUp', JSON.stringify(SHOP));
    expect((await door('shop.state')).code).toBe(0);
    expect(() => statSync(path.join(dataDir, 'rakelight.lock'))).toThrow('ENOENT');
  });

  it('goes through a running host, whose page hears of the change', async () => {
    host = await startBrowserHost(dataDir);
    const answer = await pagePost(host.origin, '/session', { code: host.code });
    const authorization = `Bearer ${(JSON.parse(answer.body) as { token: string }).token}`;
    const events = await fetch(`${host.origin}/events`, {
      method: 'POST',
      headers: { authorization, 'content-type': 'application/json', origin: host.origin },
      body: '{}',
    });
    expect((await door('shop.setUp', JSON.stringify(SHOP))).code).toBe(0);
    const reader = events.body?.pipeThrough(new TextDecoderStream()).getReader();
    let heard = '';
    while (!heard.includes('touched')) heard += (await reader?.read())?.value ?? '';
    expect(heard).toContain('"people"');
    await reader?.cancel();
  });

  it('lets a person of the shop act by name and PIN, and nobody else', async () => {
    await door('shop.setUp', JSON.stringify(SHOP));
    expect(await door('shop.page')).toMatchObject({ code: 1 });
    const page = await door('shop.page', '--as', 'marit vane', '--pin', '4711');
    expect([page.code, page.output]).toEqual([0, expect.stringContaining('Lampenhof')]);
    const wrong = await door('shop.page', '--as', 'Marit Vane', '--pin', '1');
    expect([wrong.code, wrong.errors]).toEqual([2, expect.stringContaining('The PIN of Marit Vane')]);
    const nobody = await door('shop.page', '--as', 'Somebody Else');
    expect([nobody.code, nobody.errors]).toEqual([2, expect.stringMatching(/Nobody called .*Marit Vane/)]);
    const db = new Database(path.join(dataDir, 'rakelight.sqlite'), { readonly: true });
    expect(db.prepare('SELECT count(*) AS n FROM session WHERE ended_ms IS NULL').get()).toEqual({ n: 0 });
    db.close();
  });

  it.each([
    [['no.suchThing'], 1, /no action called no\.suchThing/],
    [['shop.state', '{'], 2, /The input is not JSON/],
    [['shop.state', '{}', 'more'], 2, /more than a name and one input: more/],
    [[], 2, /name of an action has to come first/],
    [['shop.state', '{"x":1}'], 1, /Nothing was saved/],
    [['shop.state', '--bay'], 2, /--bay/],
  ])('refuses %j in a sentence', async (args, code, sentence) => {
    const ended = await door(...args);
    expect(ended.errors).toMatch(sentence);
    expect(ended.code).toBe(code);
  });

  it('has a way into a running host that no page can use and that only the folder’s owner can read', async () => {
    host = await startBrowserHost(dataDir);
    const { readFileSync } = await import('node:fs');
    const { controlPort } = JSON.parse(readFileSync(path.join(dataDir, 'rakelight.lock'), 'utf8'));
    const token = readFileSync(path.join(dataDir, 'rakelight.token'), 'utf8');
    const origin = `http://127.0.0.1:${controlPort}`;
    const ask = async (headers: Readonly<Record<string, string>>): Promise<number> =>
      (
        await rawHttp(origin, {
          method: 'POST',
          path: '/door',
          headers,
          body: '{"name":"host.info","input":{}}',
        })
      ).status;
    expect(await ask({ authorization: `Bearer ${token}` })).toBe(200);
    expect(await ask({ authorization: 'Bearer x' })).toBe(401);
    expect(await ask({})).toBe(401);
    expect(await ask({ authorization: `Bearer ${token}`, origin: 'null' })).toBe(403);
    expect(await ask({ authorization: `Bearer ${token}`, 'sec-fetch-site': 'none' })).toBe(403);
    expect(statSync(path.join(dataDir, 'rakelight.token')).mode & 0o777).toBe(0o600);
  });
});

describe('the doctor on the command line', () => {
  it('finds a sound file sound, and says so', async () => {
    await door('shop.setUp', JSON.stringify(SHOP));
    const ended = await run('doctor', '--data', dataDir);
    expect([ended.code, ended.output]).toEqual([
      0,
      expect.stringMatching(/nothing found\. The shop file is sound\.$/m),
    ]);
  });

  it('says plainly that there is no file', async () => {
    const ended = await run('doctor', '--data', path.join(dataDir, 'nowhere'));
    expect([ended.code, ended.errors]).toEqual([2, expect.stringContaining('There is no shop file in')]);
  });
});
