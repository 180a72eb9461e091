/** A gauge's text, pasted or from its file. */
export const GAUGE_TEXT_MOST = 200_000;

/** Letters that texts of people, vehicles and the shop take at most; forms and the door ask the same ones. */
export const MOST_LETTERS = {
  name: 120,
  phone: 60,
  email: 200,
  address: 600,
  taxNumber: 60,
  note: 2000,
  makeModel: 120,
  colour: 80,
  plate: 30,
  vin: 40,
} as const;
