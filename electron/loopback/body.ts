import { createHash, timingSafeEqual } from 'node:crypto';
import type { IncomingMessage } from 'node:http';
import { bytesIn } from '../../core/shared/wire.ts';

/** Ends a request with this status. */
export class HttpRefusal extends Error {
  readonly status: number;
  constructor(status: number) {
    super(`HTTP ${status}`);
    this.name = 'HttpRefusal';
    this.status = status;
  }
}

/** Compares two texts in a time that does not depend on where they differ. */
export function sameText(a: string, b: string): boolean {
  const digest = (text: string): Buffer => createHash('sha256').update(text).digest();
  return timingSafeEqual(digest(a), digest(b));
}

/**
 * The JSON body with its bytes put back.
 * @throws HttpRefusal 413 above `limit` bytes, 400 when it is not JSON
 */
export async function bodyOf(request: IncomingMessage, limit: number): Promise<unknown> {
  if (Number(request.headers['content-length'] ?? 0) > limit) throw new HttpRefusal(413);
  const chunks: Buffer[] = [];
  let size = 0;
  // Leaving a plain `for await` early destroys the socket, and the 413 would never be sent.
  const parts: AsyncIterable<Buffer> = request.iterator({ destroyOnReturn: false });
  for await (const part of parts) {
    size += part.length;
    if (size > limit) throw new HttpRefusal(413);
    chunks.push(part);
  }
  return parse(Buffer.concat(chunks).toString('utf8'));
}

function parse(text: string): unknown {
  try {
    return bytesIn(JSON.parse(text), (base64) => new Uint8Array(Buffer.from(base64, 'base64')));
  } catch {
    throw new HttpRefusal(400);
  }
}
