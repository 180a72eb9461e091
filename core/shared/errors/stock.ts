/** Refusals of the stock area: code → data. Every code has its sentence in core/shared/text. */
export type StockErrors = Readonly<Record<never, never>>;
