/** What the owner looks at. */
export const figuresTexts = {} as const;
