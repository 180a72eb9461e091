/** Customers, vehicles, people of the shop. */
export const peopleTexts = {} as const;
