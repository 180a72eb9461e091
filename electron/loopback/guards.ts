import type { IncomingMessage } from 'node:http';
import { CONTENT_POLICY } from '../staticFiles.ts';
import { HttpRefusal } from './body.ts';

/** On every answer. There is never a CORS header and never a cookie: all ports of 127.0.0.1 would share it. */
export const HEADERS = {
  'content-security-policy': CONTENT_POLICY,
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'cache-control': 'no-store',
  'permissions-policy': 'camera=(), microphone=(), geolocation=()',
} as const;

/**
 * Lets a page or file be fetched only under our exact name, so that a name pointed at 127.0.0.1 by somebody
 * else's server gets nothing. `localhost` with our port is a person's habit: it is sent on.
 * @returns where to go instead, or null
 * @throws HttpRefusal 421 wrong name, 403 another site embeds it
 */
export function checkGet(request: IncomingMessage, authority: string): string | null {
  const port = authority.split(':')[1];
  if (request.headers.host === `localhost:${port}`) return `http://${authority}${request.url ?? '/'}`;
  if (request.headers.host !== authority) throw new HttpRefusal(421);
  const site = request.headers['sec-fetch-site'];
  // A page of another site may at most link here.
  if (site === 'cross-site' && request.headers['sec-fetch-mode'] !== 'navigate') throw new HttpRefusal(403);
  return null;
}

/**
 * Lets only our own page send anything: exact name, exact origin, JSON (which no plain form can send).
 * @throws HttpRefusal 421, 403, 415
 */
export function checkPost(request: IncomingMessage, authority: string): void {
  if (request.headers.host !== authority) throw new HttpRefusal(421);
  if (request.headers.origin !== `http://${authority}`) throw new HttpRefusal(403);
  const site = request.headers['sec-fetch-site'];
  if (site !== undefined && site !== 'same-origin') throw new HttpRefusal(403);
  const type = (request.headers['content-type'] ?? '').split(';')[0]?.trim();
  if (type !== 'application/json') throw new HttpRefusal(415);
}
