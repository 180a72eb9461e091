/** Jobs, arrival, work, handover. */
export const bookingsTexts = {} as const;
