import { rmSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { freshDataDir } from './desktopApp.ts';
import { type RunningHost, startBrowserHost } from './hostProcess.ts';
import { pagePost, rawHttp } from './rawHttp.ts';

const info = { name: 'host.info', input: {} };

describe('the browser host', () => {
  let dataDir: string;
  let host: RunningHost;
  let bearer: { readonly authorization: string };

  beforeAll(async () => {
    dataDir = freshDataDir();
    host = await startBrowserHost(dataDir);
    const answer = await pagePost(host.origin, '/session', { code: host.code });
    bearer = { authorization: `Bearer ${(JSON.parse(answer.body) as { token: string }).token}` };
  });
  afterAll(async () => {
    await host.stop();
    rmSync(dataDir, { recursive: true, force: true });
  });

  it('answers a call with the token, and gives no cookie and no leave to other origins', async () => {
    const answer = await pagePost(host.origin, '/rpc', info, bearer);
    expect(answer.status).toBe(200);
    expect(JSON.parse(answer.body)).toMatchObject({ ok: true, value: { dataDir } });
    const names = Object.keys(answer.headers);
    expect(names.filter((name) => name === 'set-cookie' || name.startsWith('access-control'))).toEqual([]);
  });

  it('sends its protecting headers with every answer, refusals too', async () => {
    for (const path of ['/', '/nothing.js']) {
      const { headers } = await rawHttp(host.origin, { path });
      expect(headers).toMatchObject({
        'x-content-type-options': 'nosniff',
        'referrer-policy': 'no-referrer',
        'cross-origin-opener-policy': 'same-origin',
        'cross-origin-resource-policy': 'same-origin',
        'cache-control': 'no-store',
      });
      expect(headers['content-security-policy']).toMatch(/^default-src 'none';.*frame-ancestors 'none'$/);
      expect(headers['content-security-policy']).not.toContain('unsafe');
    }
  });

  it('refuses every name but its own, for files and for calls', async () => {
    const port = new URL(host.origin).port;
    for (const name of [`evil.invalid:${port}`, '127.0.0.1', `127.0.0.1.:${port}`, `[::1]:${port}`]) {
      expect((await rawHttp(host.origin, { headers: { host: name } })).status, name).toBe(421);
      expect((await pagePost(host.origin, '/rpc', info, { ...bearer, host: name })).status, name).toBe(421);
    }
  });

  it('sends a reader who typed localhost on to 127.0.0.1, but never a call', async () => {
    const name = `localhost:${new URL(host.origin).port}`;
    const get = await rawHttp(host.origin, { path: '/jobs', headers: { host: name } });
    expect([get.status, get.headers['location']]).toEqual([302, `${host.origin}/jobs`]);
    expect((await pagePost(host.origin, '/rpc', info, { ...bearer, host: name })).status).toBe(421);
  });

  it.each([
    ['another site', { origin: 'https://evil.invalid' }, 403],
    ['another port of this computer', { origin: 'http://127.0.0.1:1' }, 403],
    ['a page without an origin', { origin: 'null' }, 403],
    ['a cross-site fetch', { 'sec-fetch-site': 'cross-site' }, 403],
    ['a same-site fetch', { 'sec-fetch-site': 'same-site' }, 403],
    ['a plain form', { 'content-type': 'application/x-www-form-urlencoded' }, 415],
    ['plain text', { 'content-type': 'text/plain' }, 415],
  ])('refuses a call from %s even with the token', async (_who, headers, status) => {
    expect((await pagePost(host.origin, '/rpc', info, { ...bearer, ...headers })).status).toBe(status);
  });

  it('refuses other methods, also the question that comes before a call from elsewhere', async () => {
    for (const method of ['OPTIONS', 'PUT', 'DELETE', 'PATCH'])
      expect((await rawHttp(host.origin, { method, path: '/rpc' })).status, method).toBe(405);
  });

  it.each([
    ['no token', ''],
    ['another token', `Bearer ${'x'.repeat(43)}`],
    ['an empty token', 'Bearer '],
  ])('refuses a call with %s on every path of the door', async (_what, authorization) => {
    for (const path of ['/rpc', '/picture', '/cancel', '/events', '/elsewhere'])
      expect((await pagePost(host.origin, path, info, { authorization })).status, path).toBe(401);
  });

  it('takes a link’s code once and no made-up code at all', async () => {
    expect((await pagePost(host.origin, '/session', { code: host.code })).status).toBe(401);
    for (const code of ['', 'made-up', null, 7, ['x']])
      expect((await pagePost(host.origin, '/session', { code })).status).toBe(401);
  });

  it('prints a fresh link on Enter, which is as good', async () => {
    host.child.stdin?.write('\n');
    await expect.poll(() => host.output().match(/#c=/g)?.length, { timeout: 5000 }).toBe(2);
    const code = host.output().split('#c=').pop()?.split('\n')[0] ?? '';
    expect(code).not.toBe(host.code);
    expect((await pagePost(host.origin, '/session', { code })).status).toBe(200);
  });

  it('takes a body of 1 MB and answers a larger one with 413 that reaches the sender', async () => {
    const wide = (bytes: number): string => {
      const frame = JSON.stringify({ ...info, input: { x: '' } });
      return frame.replace('""', `"${'a'.repeat(bytes - frame.length)}"`);
    };
    expect((await pagePost(host.origin, '/rpc', wide(1_000_000), bearer)).status).toBe(200);
    expect((await pagePost(host.origin, '/rpc', wide(1_000_001), bearer)).status).toBe(413);
    expect((await pagePost(host.origin, '/picture', wide(2_000_000), bearer)).status).toBe(400);
    const picture = wide(2_000_000).replace('host.info', 'x.addPicture');
    expect((await pagePost(host.origin, '/picture', picture, bearer)).status).toBe(200);
  });

  it('stops reading a body that has no length once it is too long', async () => {
    const { authorization } = bearer;
    const answer = await rawHttp(host.origin, {
      method: 'POST',
      path: '/rpc',
      headers: {
        origin: host.origin,
        'content-type': 'application/json',
        'transfer-encoding': 'chunked',
        authorization,
      },
      body: `"${'a'.repeat(1_200_000)}"`,
    });
    expect(answer.status).toBe(413);
  });

  it('refuses what is not JSON and what is not a call', async () => {
    for (const body of ['{', 'null', '[]', '{"name":""}', '{"name":"host.info","input":{},"more":1}'])
      expect((await pagePost(host.origin, '/rpc', body, bearer)).status, body).toBe(400);
  });

  it.each([
    '/../package.json',
    '/..%2fversion.json',
    '/%2e%2e/version.json',
    '/..%5cversion.json',
    '/%252e%252e/version.json',
    '/.sources',
    '/a/../../version.json',
    '/index.html%00.js',
    '/%ff',
    '/C:/windows/win.ini',
    '/electron/main.js',
  ])('serves nothing for the path %s', async (path) => {
    const answer = await rawHttp(host.origin, { path });
    expect(answer.status).toBe(404);
    expect(answer.body).not.toContain('version');
  });

  it('gives the page itself for the address of any of its places', async () => {
    for (const path of ['/', '/jobs/1204', '/index.html']) {
      const answer = await rawHttp(host.origin, { path });
      expect([answer.status, answer.headers['content-type']], path).toEqual([
        200,
        'text/html; charset=utf-8',
      ]);
    }
    const embedded = { 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'no-cors' };
    expect((await rawHttp(host.origin, { headers: embedded })).status).toBe(403);
    const linked = { 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'navigate' };
    expect((await rawHttp(host.origin, { headers: linked })).status).toBe(200);
  });

  it('tells every open stream which topics became stale', async () => {
    const streams = await Promise.all([1, 2].map(() => openStream(host.origin, bearer)));
    await pagePost(host.origin, '/rpc', { name: 'host.leaveDemo', input: {} }, bearer);
    for (const next of streams) {
      expect(await next()).toEqual({ event: 'alive' });
      expect(await next()).toEqual({ event: 'touched', topics: ['*'] });
    }
  });

  it('listens on 127.0.0.1 and on no other address of this computer', async () => {
    const elsewhere = host.origin.replace('127.0.0.1', '127.0.0.2');
    await expect(rawHttp(elsewhere, {})).rejects.toThrow('ECONNREFUSED');
  });
});

/** Opens `/events` and returns a function that waits for its next line. */
async function openStream(
  origin: string,
  bearer: { readonly authorization: string },
): Promise<() => Promise<unknown>> {
  const headers = { ...bearer, origin, 'content-type': 'application/json' };
  const answer = await fetch(`${origin}/events`, { method: 'POST', headers, body: '{}' });
  const reader = answer.body?.pipeThrough(new TextDecoderStream()).getReader();
  let rest = '';
  return async () => {
    while (!rest.includes('\n')) rest += (await reader?.read())?.value ?? '';
    const [line = '', ...later] = rest.split('\n');
    rest = later.join('\n');
    return JSON.parse(line);
  };
}
