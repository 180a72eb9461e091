import { useSyncExternalStore } from 'react';

/** Who is at this window: the token that `access` gave, sent with every call. Forgotten when the window closes. */
const KEY = 'rakelight.session';
const listeners = new Set<() => void>();
let lapsed = false;

export function sessionToken(): string | undefined {
  return sessionStorage.getItem(KEY) ?? undefined;
}

/** The core knows the token no more (too long ago, or signed out elsewhere): somebody has to say who they are. */
export function lapseSession(): void {
  setSessionToken(null);
  lapsed = true;
}

/** True when the last person here did not leave but was signed out by time or from elsewhere. */
export function sessionLapsed(): boolean {
  return lapsed;
}

/** Keeps the token of the person who just said who they are; null when they leave. */
export function setSessionToken(token: string | null): void {
  lapsed = false;
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
