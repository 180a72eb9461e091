import { z } from 'zod';
import { type Entry, read } from '../entry.ts';
import { problem } from '../problems.ts';
import { localDaysBetween } from '../time.ts';
import type { HonestyView, MarginView, UtilizationView } from '../views/figures.ts';
import { localDayInput } from './inputs.ts';

/** Longer ranges would be worked out for minutes on end, and nobody can read them day by day. */
const MOST_DAYS = 1100;
const range = z
  .strictObject({ fromDay: localDayInput, toDay: localDayInput })
  .refine((r) => r.fromDay <= r.toDay, { message: problem('endsBeforeBegins'), path: ['toDay'] })
  .refine((r) => localDaysBetween(r.fromDay, r.toDay) < MOST_DAYS, {
    message: problem('overThreeYears'),
    path: ['toDay'],
  });

/** Queries of the figures area: the owner's look back. Both days of a range are included. */
export const figuresEntries = {
  'figures.utilization': read<UtilizationView>()({
    needs: 'owner',
    about: 'How the open hours of each bay were spent by day; the parts sum to them to the minute.',
    input: range,
    listens: ['work', 'plan', 'bays', 'jobs'],
  }),
  'figures.honesty': read<HonestyView>()({
    needs: 'owner',
    about: 'Estimated against actual, per stage, technician and paint, and the share kept within P80.',
    input: range,
    listens: ['work', 'jobs'],
  }),
  'figures.margin': read<MarginView>()({
    needs: 'owner',
    about: 'What collected jobs brought: net, material and hours.',
    input: range,
    listens: ['invoices', 'stock', 'work', 'jobs'],
  }),
} as const satisfies Readonly<Record<string, Entry>>;
