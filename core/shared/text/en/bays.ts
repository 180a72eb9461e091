/** The board, offers and promises. */
export const baysTexts = {} as const;
