import { useSyncExternalStore } from 'react';

/** Paths live behind `#` so that the page itself is always the same file in both hosts. */
export type Params = Readonly<Record<string, string>>;

function current(): string {
  const path = location.hash.replace(/^#/, '');
  return path.startsWith('/') ? path : '/';
}

/** Goes to a path, `/jobs/01h…/estimate`; `replace` leaves no step to go back to. */
export function go(path: string, how: 'push' | 'replace' = 'push'): void {
  if (how === 'push') location.hash = path;
  else location.replace(`#${path}`);
}

/** The path the window shows, with its query. */
export function usePath(): string {
  return useSyncExternalStore((tell) => {
    window.addEventListener('hashchange', tell);
    return () => window.removeEventListener('hashchange', tell);
  }, current);
}

/** The part of a path after `?`, as a map: `#/bays?offer=b`. */
export function queryOf(path: string): URLSearchParams {
  return new URLSearchParams(path.split('?')[1] ?? '');
}

/**
 * Fits a path to a pattern: `/jobs/:jobId` and `/jobs/a1?x=2` give `{ jobId: 'a1' }`. Null where it does not fit.
 */
export function matchPath(pattern: string, path: string): Params | null {
  const want = pattern.split('/');
  const have = (path.split('?')[0] ?? '').replace(/\/+$/, '').split('/');
  if (want.length !== have.length) return null;
  const params: Record<string, string> = {};
  for (const [i, part] of want.entries()) {
    const got = have[i] ?? '';
    if (part.startsWith(':')) params[part.slice(1)] = decoded(got);
    else if (part !== got) return null;
  }
  return params;
}

/** A part as it was meant; one that was typed with a lone `%` stands for itself. */
function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}
