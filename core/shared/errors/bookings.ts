/** Refusals of the bookings area: code → data. Every code has its sentence in core/shared/text. */
export type BookingsErrors = Readonly<Record<never, never>>;
