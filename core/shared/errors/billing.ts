/** Refusals of the billing area: code → data. Every code has its sentence in core/shared/text. */
export type BillingErrors = {
  readonly CURRENCY_UNKNOWN: { readonly code: string };
};
