import { useSyncExternalStore } from 'react';

/** Who is at this window: the token that `access` gave, sent with every call. Forgotten when the window closes. */
const KEY = 'rakelight.session';
const listeners = new Set<() => void>();

export function sessionToken(): string | undefined {
  return sessionStorage.getItem(KEY) ?? undefined;
}

/** Keeps the token of the person who just said who they are; null when they leave. */
export function setSessionToken(token: string | null): void {
  if (token === null) sessionStorage.removeItem(KEY);
  else sessionStorage.setItem(KEY, token);
  for (const tell of listeners) tell();
}

/** The token, re-rendering when somebody arrives or leaves. */
export function useSessionToken(): string | undefined {
  return useSyncExternalStore((tell) => {
    listeners.add(tell);
    return () => listeners.delete(tell);
  }, sessionToken);
}
