import type { EpochMs } from '../units.ts';

/** Refusals of the bays area: code → data. Every code has its sentence in core/shared/text. */
export type BaysErrors = {
  /** A plan breaks a rule; `rule` is a key of PLAN_RULES, `sentence` names it in words. */
  readonly PLAN_BREAKS_RULE: { readonly rule: string; readonly sentence: string };
  /** The board changed since the offer or proposal was computed. */
  readonly PLAN_CHANGED: Readonly<Record<string, never>>;
  /** What was to be put back was planned again since. */
  readonly UNDO_OVERTAKEN: { readonly who: string };
  /** No placement exists within the horizon; `reason` is the one rule that makes it impossible. */
  readonly NO_PLACE_FOR_JOB: { readonly reason: string; readonly stage: string };
  readonly JOB_HAS_NO_STAGES: { readonly number: number };
  readonly JOB_NOT_PLANNABLE: { readonly number: number; readonly state: string };
  /** No drop-off and pick-up are agreed that a calendar could show. */
  readonly JOB_NOT_BOOKED: { readonly number: number };
  readonly BAY_NAME_TWICE: { readonly name: string };
  /** A bay that still has cars on the plan cannot be ended. */
  readonly BAY_KIND_IN_USE: { readonly name: string; readonly cars: number };
  readonly BAY_IN_USE: { readonly name: string; readonly cars: number };
  /** A bay cannot begin after a car stood, or is planned, in it. */
  readonly BAY_USED_BEFORE: { readonly name: string; readonly usedOnMs: EpochMs };
  readonly HOURS_OVERLAP: { readonly weekday: number };
  readonly SAME_BAY: Readonly<Record<string, never>>;
  readonly SPAN_REVERSED: { readonly field: string };
  readonly HOURS_NOT_SET: Readonly<Record<string, never>>;
  readonly NEEDS_CONSENT: { readonly sentence: string };
  /** A promise would be less sure than the shop's promises are, and nobody chose that. */
  readonly PROMISE_BOLD: { readonly number: number; readonly percent: number };
  /** A pick-up that goes with a quote is no longer as sure as the shop's promises are. */
  readonly PICK_UP_NOT_SURE: { readonly percent: number };
  readonly STAGE_CANNOT_SPLIT: { readonly stage: string };
};
