import { randomBytes } from 'node:crypto';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Service } from '../../core/host/client.ts';
import { carriesFile, MAX_BODY_BYTES, MAX_PICTURE_BODY_BYTES } from '../../core/shared/bridge.ts';
import { readCall } from '../callShape.ts';
import { StartStopped } from '../refusal.ts';
import { readStatic } from '../staticFiles.ts';
import { bodyOf, HttpRefusal, sameText } from './body.ts';
import { replyText } from './encode.ts';
import { type EventStreams, openStreams } from './events.ts';
import { checkGet, checkPost, HEADERS } from './guards.ts';

/** The page and its door on 127.0.0.1, for one shop. */
export type LoopbackHost = {
  readonly origin: string;
  /** From here on calls are answered; before, they get 503. */
  serve(service: Service): void;
  /** A link with a code that is good for one use. */
  freshLink(): string;
  close(): Promise<void>;
};

type Inside = {
  readonly token: string;
  readonly codes: Set<string>;
  readonly rendererDir: string;
  readonly streams: EventStreams;
  authority: string;
  service: Service | null;
};

/**
 * Listens on 127.0.0.1 and nowhere else. `port` 0 takes any free one.
 * @throws StartStopped portInUse
 */
export async function startLoopback(rendererDir: string, port: number): Promise<LoopbackHost> {
  const inside: Inside = {
    token: randomBytes(32).toString('base64url'),
    codes: new Set(),
    rendererDir,
    streams: openStreams(),
    authority: '',
    service: null,
  };
  const server = createServer((request, response) => {
    answer(inside, request, response).catch((error: unknown) => refuse(request, response, error));
  });
  server.requestTimeout = 30_000;
  server.headersTimeout = 10_000;
  await listen(server, port);
  inside.authority = `127.0.0.1:${(server.address() as AddressInfo).port}`;
  return {
    origin: `http://${inside.authority}`,
    serve: (service) => {
      inside.service = service;
      service.onTouched((topics) => inside.streams.send({ event: 'touched', topics }));
    },
    freshLink: () => freshLink(inside),
    close: () => close(server, inside.streams),
  };
}

function freshLink(inside: Inside): string {
  const code = randomBytes(24).toString('base64url');
  inside.codes.add(code);
  return `http://${inside.authority}/#c=${code}`;
}

async function answer(inside: Inside, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const { method } = request;
  const url = new URL(request.url ?? '/', `http://${inside.authority}`);
  if (method === 'GET' || method === 'HEAD') {
    const elsewhere = checkGet(request, inside.authority);
    if (elsewhere !== null) return void response.writeHead(302, { ...HEADERS, location: elsewhere }).end();
    return sendFile(inside, rawPathOf(request), response);
  }
  if (method !== 'POST') throw new HttpRefusal(405);
  checkPost(request, inside.authority);
  if (url.pathname === '/session') return session(inside, request, response);
  if (!sameText(request.headers.authorization ?? '', `Bearer ${inside.token}`)) throw new HttpRefusal(401);
  return door(inside, url.pathname, request, response);
}

/** `new URL` would tidy `/../` away before anybody can refuse it. */
function rawPathOf(request: IncomingMessage): string {
  return (request.url ?? '/').split(/[?#]/)[0] ?? '/';
}

async function sendFile(inside: Inside, path: string, response: ServerResponse): Promise<void> {
  const file = await readStatic(inside.rendererDir, path);
  if (file === null) throw new HttpRefusal(404);
  response
    .writeHead(200, { ...HEADERS, 'content-type': file.type, 'content-length': file.body.length })
    .end(file.body);
}

async function session(inside: Inside, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const body = await bodyOf(request, MAX_BODY_BYTES);
  const code = typeof body === 'object' && body !== null && 'code' in body ? body.code : null;
  if (typeof code !== 'string' || !inside.codes.delete(code)) throw new HttpRefusal(401);
  sendJson(response, JSON.stringify({ token: inside.token }));
}

async function door(
  inside: Inside,
  path: string,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  if (path === '/events') {
    await bodyOf(request, MAX_BODY_BYTES);
    return inside.streams.add(response);
  }
  if (path !== '/rpc' && path !== '/picture' && path !== '/cancel') throw new HttpRefusal(404);
  const body = await bodyOf(request, path === '/picture' ? MAX_PICTURE_BODY_BYTES : MAX_BODY_BYTES);
  if (inside.service === null) throw new HttpRefusal(503);
  if (path === '/cancel') return cancel(inside.service, body, response);
  const call = readCall(body);
  if (call === null || (path === '/picture' && !carriesFile(call.name))) throw new HttpRefusal(400);
  const { commandId } = call;
  const reply = await inside.service.call(call, {
    onProgress: (done, total, note) => {
      if (commandId !== undefined)
        inside.streams.send({ event: 'progress', progress: { commandId, done, total, note } });
    },
  });
  sendJson(response, replyText(reply));
}

function cancel(service: Service, body: unknown, response: ServerResponse): void {
  const id = typeof body === 'object' && body !== null && 'commandId' in body ? body.commandId : null;
  if (typeof id !== 'string') throw new HttpRefusal(400);
  service.cancel(id);
  response.writeHead(204, HEADERS).end();
}

function sendJson(response: ServerResponse, text: string): void {
  response
    .writeHead(200, {
      ...HEADERS,
      'content-type': 'application/json',
      'content-length': Buffer.byteLength(text),
    })
    .end(text);
}

function refuse(request: IncomingMessage, response: ServerResponse, error: unknown): void {
  if (!(error instanceof HttpRefusal)) console.error(error);
  if (response.headersSent) return void response.destroy();
  const status = error instanceof HttpRefusal ? error.status : 500;
  const allow = status === 405 ? { allow: 'GET, HEAD, POST' } : {};
  // Whatever is left of a body that was not read must not be taken for the next request.
  response.once('finish', () => request.destroy());
  response
    .writeHead(status, { ...HEADERS, ...allow, connection: 'close', 'content-type': 'text/plain' })
    .end(`${status}\n`);
}

function listen(server: Server, port: number): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) =>
      reject(error.code === 'EADDRINUSE' ? new StartStopped({ kind: 'portInUse', port }) : error),
    );
    server.listen({ port, host: '127.0.0.1', exclusive: true }, resolve);
  });
}

function close(server: Server, streams: EventStreams): Promise<void> {
  return new Promise((resolve) => {
    streams.close();
    server.close(() => resolve());
    server.closeAllConnections();
  });
}
