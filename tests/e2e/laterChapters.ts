import { jobCard } from './chapters/14-jobCard.ts';
import { testSpot } from './chapters/15-testSpot.ts';
import { draws } from './chapters/16-draws.ts';
import { pads } from './chapters/17-pads.ts';
import { overrun } from './chapters/18-overrun.ts';
import { readingsAfter } from './chapters/19-readingsAfter.ts';
import { order } from './chapters/20-order.ts';
import { invoice } from './chapters/21-invoice.ts';
import { payments } from './chapters/22-payments.ts';
import { handover } from './chapters/23-handover.ts';
import { owner } from './chapters/24-owner.ts';
import { learned } from './chapters/25-learned.ts';
import { cancelled, noShow, stoppedHalfWay } from './chapters/26-endings.ts';
import { roles } from './chapters/29-roles.ts';
import type { Chapter } from './chapters.ts';

/** From the job card to what the next estimate has learned. They need the keys `job` and `secondJob`. */
export const laterChapters: readonly Chapter[] = [
  { title: '14 prints the job card; starts and ends stages with their times', tell: jobCard },
  { title: '15 a test spot takes longer: a new version of the quote, agreed', tell: testSpot },
  { title: '16 books what a stage used, corrected and beyond the book', tell: draws },
  { title: '17 pads go dirty, one is retired, the others are washed', tell: pads },
  { title: '18 a stage overruns: recorded, shown, planned anew', tell: overrun },
  { title: '19 reads the film again: taken per panel, left for life', tell: readingsAfter },
  { title: '20 stock looks forward: an order and why, a part delivery', tell: order },
  { title: '21 issues the invoice with tax, the deposit taken off, PDF and UBL', tell: invoice },
  { title: '22 takes a part, then the rest; writes a credit note', tell: payments },
  { title: '23 hands the car over with the same record', tell: handover },
  { title: '24 the owner sees hours that add up, owed and to order', tell: owner },
  { title: '25 the next estimate has learned, and says from what', tell: learned },
  { title: '26 a car that did not come frees its place', tell: noShow },
  { title: '27 a cancelled job keeps its deposit as a fee', tell: cancelled },
  { title: '28 a job stopped half way is billed by what was done', tell: stoppedHalfWay },
  { title: '29 a technician can’t reach money, and is told so', tell: roles },
];
