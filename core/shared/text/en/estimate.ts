/** Stages, hours, materials, price. */
export const estimateTexts = {} as const;
