/** Refusals of the paint area: code → data. Every code has its sentence in core/shared/text. */
export type PaintErrors = Readonly<Record<never, never>>;
