/** Refusals of the people area: code → data. Every code has its sentence in core/shared/text. */
export type PeopleErrors = Readonly<Record<never, never>>;
