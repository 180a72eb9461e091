import type { Protocol } from 'electron';
import { RENDERER_DIR } from './paths.ts';
import { isOwnUrl, PAGE_SCHEME } from './security.ts';
import { CONTENT_POLICY, readStatic } from './staticFiles.ts';

const HEADERS = {
  'content-security-policy': CONTENT_POLICY,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
} as const;

/** Serves the page from its own folder, for reading only. */
export function servePage(protocol: Protocol): void {
  protocol.handle(PAGE_SCHEME, async (request) => {
    if (request.method !== 'GET' || !isOwnUrl(request.url))
      return new Response('403', { status: 403, headers: HEADERS });
    const file = await readStatic(RENDERER_DIR, new URL(request.url).pathname);
    if (file === null) return new Response('404', { status: 404, headers: HEADERS });
    return new Response(new Uint8Array(file.body), { headers: { ...HEADERS, 'content-type': file.type } });
  });
}
