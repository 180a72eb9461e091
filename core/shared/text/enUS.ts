import type { TextKey } from './en.ts';

/** Words that the trade in the United States says otherwise; all else is as in en.ts. From memory. */
export const enUS = {
  'word.body.saloon': 'sedan',
  'word.body.estate': 'wagon',
  'word.body.pickup': 'pickup',

  'word.panel.bo': 'hood',
  'word.panel.bl': 'trunk lid',
  'word.panel.lfw': 'left front fender',
  'word.panel.rfw': 'right front fender',
  'word.panel.lrq': 'left quarter panel',
  'word.panel.rrq': 'right quarter panel',
  'word.panel.lsl': 'left rocker panel',
  'word.panel.rsl': 'right rocker panel',
  'word.panelOf.hatch.bl': 'liftgate',
  'word.panelOf.estate.bl': 'liftgate',
  'word.panelOf.tall.bl': 'liftgate',

  'word.substrate.aluminium': 'aluminum',
  'word.jobState.enquiry': 'inquiry',
  'word.jobState.cancelled': 'canceled',
  'journal.bookings.cancelJob': 'canceled {what}',
  'takeIn.colour': 'color',
  'field.colour': 'Color',
  'estimate.alike': 'keep neighbors alike',
  'why.input.labour': 'labor',
  'shop.step.price.note': 'what labor is charged at',
  'shop.demo.aged': 'This demo shop was built around a day {days} days ago; its busy two weeks are over.',
  'ui.acts.takeInWords': 'new customer vehicle car job booking appointment inquiry telephone arrival',
} as const satisfies Readonly<Partial<Record<TextKey, string>>>;
