/** Refusals of the what-if: code → data. Every code has its sentence in core/shared/text. */
export type WhatIfErrors = {
  /** Too few jobs were finished and collected for arrivals and hours to be drawn from. */
  readonly TOO_FEW_FINISHED: { readonly finished: number; readonly needed: number };
  readonly NO_HANDS: Readonly<Record<string, never>>;
  /** No finished job of this kind to draw from. */
  readonly NO_SUCH_WORK: Readonly<Record<string, never>>;
};
