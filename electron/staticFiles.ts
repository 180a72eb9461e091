import { readFile, stat } from 'node:fs/promises';
import path from 'node:path';

export type StaticFile = { readonly body: Buffer; readonly type: string };

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff': 'font/woff',
  '.woff2': 'font/woff2',
  '.wasm': 'application/wasm',
  '.txt': 'text/plain; charset=utf-8',
};

/**
 * What the page may load, and nothing else. No exception for scripts or styles: the build writes none inline.
 * Pictures may come from bytes the page itself holds.
 */
export const CONTENT_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "form-action 'none'",
  "base-uri 'none'",
  "frame-ancestors 'none'",
].join('; ');

/**
 * A file of the page by its address path, decoded once. A path without a file ending is the page itself: its
 * places have addresses of their own. Null for anything outside, hidden, or not there.
 */
export async function readStatic(root: string, rawPath: string): Promise<StaticFile | null> {
  const inside = safePath(rawPath);
  if (inside === null) return null;
  const name = path.posix.extname(inside) === '' ? 'index.html' : inside;
  const type = TYPES[path.posix.extname(name)];
  const file = path.join(root, ...name.split('/'));
  if (type === undefined || !file.startsWith(root + path.sep)) return null;
  const found = await stat(file).catch(() => null);
  return found?.isFile() ? { body: await readFile(file), type } : null;
}

function safePath(rawPath: string): string | null {
  let decoded: string;
  try {
    decoded = decodeURIComponent(rawPath);
  } catch {
    return null;
  }
  if (!decoded.startsWith('/') || /[\0\\:]/.test(decoded)) return null;
  const parts = decoded.slice(1).split('/');
  return parts.some((part) => part.startsWith('.')) ? null : parts.join('/');
}
