import { accessTexts } from './en/access.ts';
import { baysTexts } from './en/bays.ts';
import { billingTexts } from './en/billing.ts';
import { bookingsTexts } from './en/bookings.ts';
import { booksTexts } from './en/books.ts';
import { cardTexts } from './en/card.ts';
import { commonTexts } from './en/common.ts';
import { copiesTexts } from './en/copies.ts';
import { doctorTexts } from './en/doctor.ts';
import { documentsTexts } from './en/documents.ts';
import { estimateTexts } from './en/estimate.ts';
import { fieldsTexts } from './en/fields.ts';
import { figuresTexts } from './en/figures.ts';
import { journalTexts } from './en/journal.ts';
import { listPriceTexts } from './en/listPrices.ts';
import { logoTexts } from './en/logo.ts';
import { mondayTexts } from './en/monday.ts';
import { moneyTexts } from './en/money.ts';
import { paintTexts } from './en/paint.ts';
import { partialTexts } from './en/partial.ts';
import { peopleTexts } from './en/people.ts';
import { quotedThingsTexts } from './en/quotedThings.ts';
import { setUpTexts } from './en/setUp.ts';
import { shopTexts } from './en/shop.ts';
import { shopApartTexts } from './en/shopApart.ts';
import { shopPriceTexts } from './en/shopPrices.ts';
import { startTexts } from './en/start.ts';
import { stockTexts } from './en/stock.ts';
import { stockContainersTexts } from './en/stockContainers.ts';
import { stockCountsTexts } from './en/stockCounts.ts';
import { stockScreensTexts } from './en/stockScreens.ts';
import { taxesTexts } from './en/taxes.ts';
import { uiTexts } from './en/ui.ts';
import { vouchersTexts } from './en/vouchers.ts';
import { whatIfTexts } from './en/whatIf.ts';
import { wordsTexts } from './en/words.ts';
import { workFieldsTexts } from './en/workFields.ts';

/** Every English text of the program, by its key. */
export const en = {
  ...commonTexts,
  ...accessTexts,
  ...peopleTexts,
  ...shopTexts,
  ...shopPriceTexts,
  ...shopApartTexts,
  ...copiesTexts,
  ...setUpTexts,
  ...paintTexts,
  ...estimateTexts,
  ...bookingsTexts,
  ...cardTexts,
  ...baysTexts,
  ...startTexts,
  ...doctorTexts,
  ...fieldsTexts,
  ...stockTexts,
  ...stockContainersTexts,
  ...stockCountsTexts,
  ...stockScreensTexts,
  ...billingTexts,
  ...partialTexts,
  ...booksTexts,
  ...moneyTexts,
  ...vouchersTexts,
  ...taxesTexts,
  ...listPriceTexts,
  ...quotedThingsTexts,
  ...logoTexts,
  ...documentsTexts,
  ...figuresTexts,
  ...mondayTexts,
  ...journalTexts,
  ...uiTexts,
  ...whatIfTexts,
  ...wordsTexts,
  ...workFieldsTexts,
} as const;

export type TextKey = keyof typeof en;
