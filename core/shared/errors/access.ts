import type { Role } from '../roles.ts';

export type AccessErrors = {
  readonly NOT_ALLOWED: { readonly needs: Role; readonly has: Role | 'nobody' };
  readonly PIN_WRONG: { readonly triesLeft: number };
  readonly PIN_WAIT: { readonly seconds: number };
  readonly SESSION_ENDED: Readonly<Record<string, never>>;
};
