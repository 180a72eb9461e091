import type { Role } from '../roles.ts';

export type AccessErrors = {
  readonly NOT_ALLOWED: { readonly needs: Role; readonly has: Role | 'nobody' };
  readonly SESSION_ENDED: Readonly<Record<string, never>>;
  readonly PIN_SHAPE: Readonly<Record<string, never>>;
  /** The shop would be left without anybody who may run it. */
  readonly LAST_OWNER: { readonly name: string };
  readonly PERSON_NAME_TAKEN: { readonly name: string };
  readonly PERSON_ENDED: { readonly name: string; readonly day: string };
  readonly PERSON_NOT_BEGUN: { readonly name: string; readonly day: string };
  /** An hour that costs five times what those around it do, or a fifth: asked about. */
  readonly HOUR_COST_FAR: { readonly name: string; readonly hourMinor: number; readonly nearMinor: number };
  readonly HOUR_COST_DAY: {
    readonly name: string;
    readonly day: string;
    readonly startedOnDay: string;
    readonly latestOnDay: string;
  };
  readonly ENDS_BEFORE_START: { readonly name: string; readonly started: string };
};
