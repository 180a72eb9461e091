import { randomBytes } from 'node:crypto';
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import path from 'node:path';
import type { Service } from '../core/host/client.ts';
import { MAX_PICTURE_BODY_BYTES } from '../core/shared/bridge.ts';
import { readCall } from './callShape.ts';
import { bodyOf, HttpRefusal, sameText } from './loopback/body.ts';
import { replyText } from './loopback/encode.ts';

/** The way for the command line into a running host: a loopback port and a token only the same user can read. */
export type Control = { readonly port: number; close(): Promise<void> };

/** What the command line may ask of a running host besides calls. */
export type Asked = {
  /** A fresh link to this host's page; '' where it has a window of its own. */
  freshLink(): string;
};

export function tokenFileOf(dataDir: string): string {
  return path.join(dataDir, 'rakelight.token');
}

/** Opens the way in and leaves its token in the data folder, readable by the owner of the folder only. */
export async function startControl(dataDir: string, service: Service, asked: Asked): Promise<Control> {
  const token = randomBytes(32).toString('base64url');
  const server = createServer((request, response) => {
    answer(request, response, token, service, asked).catch((error: unknown) => {
      const status = error instanceof HttpRefusal ? error.status : 400;
      response.writeHead(status, { connection: 'close' }).end();
    });
  });
  server.requestTimeout = 30_000;
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject).listen(0, '127.0.0.1', resolve);
  });
  const file = tokenFileOf(dataDir);
  rmSync(file, { force: true });
  writeFileSync(file, token, { mode: 0o600, flag: 'wx' });
  return {
    port: (server.address() as AddressInfo).port,
    close: () =>
      new Promise((resolve) => {
        if (tokenIn(file) === token) rmSync(file, { force: true });
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

/** '' when somebody tidied the file away. */
function tokenIn(file: string): string {
  return existsSync(file) ? readFileSync(file, 'utf8') : '';
}

async function answer(
  request: IncomingMessage,
  response: ServerResponse,
  token: string,
  service: Service,
  asked: Asked,
): Promise<void> {
  // No page of any browser has business here: browsers always name their origin on such requests.
  const fromPage = request.headers.origin !== undefined || request.headers['sec-fetch-site'] !== undefined;
  if (fromPage || request.method !== 'POST') throw new HttpRefusal(403);
  if (!sameText(request.headers.authorization ?? '', `Bearer ${token}`)) throw new HttpRefusal(401);
  const body = await bodyOf(request, MAX_PICTURE_BODY_BYTES);
  if (request.url === '/link') return send(response, JSON.stringify({ link: asked.freshLink() }));
  if (request.url !== '/door') throw new HttpRefusal(404);
  const call = readCall(body);
  if (call === null) throw new HttpRefusal(400);
  return send(response, replyText(await service.call(call)));
}

function send(response: ServerResponse, text: string): void {
  response.writeHead(200, { 'content-type': 'application/json', 'cache-control': 'no-store' }).end(text);
}
