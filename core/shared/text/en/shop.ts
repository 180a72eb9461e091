/** The shop and its settings. */
export const shopTexts = {} as const;
