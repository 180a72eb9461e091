import { setUpShop } from './chapters/01-setUpShop.ts';
import { takeCall } from './chapters/02-takeCall.ts';
import { provisionalEstimate } from './chapters/03-provisional.ts';
import { bookVisit } from './chapters/04-visit.ts';
import { carArrives } from './chapters/05-arrival.ts';
import { inspect } from './chapters/06-inspection.ts';
import { estimateByPanels } from './chapters/07-estimate.ts';
import { bestWithinCeiling } from './chapters/08-bestWithin.ts';
import { quoteAgreed } from './chapters/09-quote.ts';
import { bookWork } from './chapters/10-offers.ts';
import { calendarFile } from './chapters/11-calendar.ts';
import { moveOnBoard } from './chapters/12-board.ts';
import { secondJob } from './chapters/13-secondJob.ts';
import { laterChapters } from './laterChapters.ts';
import type { Run } from './run.ts';

/** One step of the story: what somebody does on the screen, and what it must have done. */
export type Chapter = { readonly title: string; readonly tell: (run: Run) => Promise<void> };

/** The main job from a phone call to a paid invoice, in its order; each chapter needs those before it. */
export const chapters: readonly Chapter[] = [
  { title: '1 sets up the shop, its bays, hours, people, price and tax', tell: setUpShop },
  { title: '2 takes a call from a long name with a slip in the vehicle number', tell: takeCall },
  { title: '3 tells a provisional estimate with a wide range', tell: provisionalEstimate },
  { title: '4 offers dates and books an inspection visit', tell: bookVisit },
  { title: '5 takes the car in with its record and a signature', tell: carArrives },
  { title: '6 inspects the paint on the flat car', tell: inspect },
  { title: '7 estimates by panels', tell: estimateByPanels },
  { title: '8 finds the best within the ceiling', tell: bestWithinCeiling },
  { title: '9 prints the quote with its limits, agreed by name and way', tell: quoteAgreed },
  { title: '10 offers three dates for the work, books one, takes a deposit', tell: bookWork },
  { title: '11 puts drop-off and pick-up into a calendar file', tell: calendarFile },
  { title: '12 moves the car on the board by mouse and keys; a rule refuses in words', tell: moveOnBoard },
  { title: '13 plans a second job around it', tell: secondJob },
  ...laterChapters,
];
