/** Inspection, film, findings. */
export const paintTexts = {} as const;
