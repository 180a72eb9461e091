/** Refusals of the bays area: code → data. Every code has its sentence in core/shared/text. */
export type BaysErrors = Readonly<Record<never, never>>;
