/** Items, draws, pads, orders. */
export const stockTexts = {} as const;
