import { accessTexts } from './en/access.ts';
import { baysTexts } from './en/bays.ts';
import { billingTexts } from './en/billing.ts';
import { bookingsTexts } from './en/bookings.ts';
import { commonTexts } from './en/common.ts';
import { doctorTexts } from './en/doctor.ts';
import { documentsTexts } from './en/documents.ts';
import { estimateTexts } from './en/estimate.ts';
import { fieldsTexts } from './en/fields.ts';
import { figuresTexts } from './en/figures.ts';
import { journalTexts } from './en/journal.ts';
import { paintTexts } from './en/paint.ts';
import { peopleTexts } from './en/people.ts';
import { shopTexts } from './en/shop.ts';
import { startTexts } from './en/start.ts';
import { stockTexts } from './en/stock.ts';
import { uiTexts } from './en/ui.ts';
import { wordsTexts } from './en/words.ts';
import { workFieldsTexts } from './en/workFields.ts';

/** Every English text of the program, by its key. */
export const en = {
  ...commonTexts,
  ...accessTexts,
  ...peopleTexts,
  ...shopTexts,
  ...paintTexts,
  ...estimateTexts,
  ...bookingsTexts,
  ...baysTexts,
  ...startTexts,
  ...doctorTexts,
  ...fieldsTexts,
  ...stockTexts,
  ...billingTexts,
  ...documentsTexts,
  ...figuresTexts,
  ...journalTexts,
  ...uiTexts,
  ...wordsTexts,
  ...workFieldsTexts,
} as const;

export type TextKey = keyof typeof en;
