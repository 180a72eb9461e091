import { z } from 'zod';
import { type Entry, read } from '../entry.ts';
import type { BayId } from '../ids.ts';
import { problem } from '../problems.ts';
import { localDaysBetween } from '../time.ts';
import type { LocalDay } from '../units.ts';
import type { CellJobsView, HonestyView, MarginView, UtilizationView } from '../views/figures.ts';
import { idOf, localDayInput, personIdInput } from './inputs.ts';

/** Longer ranges would be worked out for minutes on end, and nobody can read them day by day. */
const MOST_DAYS = 1100;
/** Eleven years: what is told by week or month can be read that far. */
const MOST_FAR_DAYS = 4020;
type Range = { readonly fromDay: string; readonly toDay: string };
const days = { fromDay: localDayInput, toDay: localDayInput };
const inOrder = (r: Range): boolean => r.fromDay <= r.toDay;
const within = (most: number) => (r: Range) =>
  localDaysBetween(r.fromDay as LocalDay, r.toDay as LocalDay) < most;
const wrongOrder = { message: problem('endsBeforeBegins'), path: ['toDay'] };
const range = z
  .strictObject(days)
  .refine(inOrder, wrongOrder)
  .refine(within(MOST_DAYS), { message: problem('overThreeYears'), path: ['toDay'] });
const farRange = z
  .strictObject(days)
  .refine(inOrder, wrongOrder)
  .refine(within(MOST_FAR_DAYS), { message: problem('overElevenYears'), path: ['toDay'] });
const hoursRange = z
  .strictObject({ ...days, by: z.enum(['day', 'week', 'month']).default('day') })
  .refine(inOrder, wrongOrder)
  .refine((r) => r.by !== 'day' || within(MOST_DAYS)(r), {
    message: problem('overThreeYears'),
    path: ['toDay'],
  })
  .refine(within(MOST_FAR_DAYS), { message: problem('overElevenYears'), path: ['toDay'] });
const cellInput = z
  .strictObject({ ...days, bayId: idOf<BayId>().nullable(), personId: personIdInput.nullable() })
  .refine(inOrder, wrongOrder)
  .refine(within(MOST_FAR_DAYS), { message: problem('overElevenYears'), path: ['toDay'] });

/** Queries of the figures area: the owner's look back. Both days of a range are included. */
export const figuresEntries = {
  'figures.utilization': read<UtilizationView>()({
    needs: 'owner',
    about:
      'How the open hours of each bay and the shifts of each technician were spent by day, week or month; the parts sum to them to the minute.',
    input: hoursRange,
    listens: ['work', 'plan', 'bays', 'jobs'],
  }),
  'figures.cellJobs': read<CellJobsView>()({
    needs: 'owner',
    about: 'The jobs behind one cell of the bay hours, of one bay or of one technician.',
    input: cellInput,
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
