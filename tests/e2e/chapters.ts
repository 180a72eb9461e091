import { setUpShop } from './chapters/01-setUpShop.ts';
import type { Run } from './run.ts';

/** One step of the story: what somebody does on the screen, and what it must have done. */
export type Chapter = { readonly title: string; readonly tell: (run: Run) => Promise<void> };

/** The main job from a phone call to a paid invoice, in its order; each chapter needs those before it. */
export const chapters: readonly Chapter[] = [
  { title: '1 sets up the shop, its bays, hours, people, price and tax', tell: setUpShop },
];
