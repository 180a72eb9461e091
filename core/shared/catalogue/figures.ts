import { z } from 'zod';
import { document, type Entry, read } from '../entry.ts';
import type { BayId } from '../ids.ts';
import { problem } from '../problems.ts';
import { localDaysBetween } from '../time.ts';
import type { LocalDay } from '../units.ts';
import {
  type CellJobsView,
  HONESTY_TABLES,
  type HonestyView,
  type MarginView,
  type UtilizationView,
} from '../views/figures.ts';
import { MONEY_TABLES, type MoneyFiguresView } from '../views/figuresMoney.ts';
import type { MondayView } from '../views/monday.ts';
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
const withTable = <T extends readonly [string, ...string[]]>(tables: T) =>
  z
    .strictObject({ ...days, table: z.enum(tables) })
    .refine(inOrder, wrongOrder)
    .refine(within(MOST_FAR_DAYS), { message: problem('overElevenYears'), path: ['toDay'] });
const cellInput = z
  .strictObject({ ...days, bayId: idOf<BayId>().nullable(), personId: personIdInput.nullable() })
  .refine(inOrder, wrongOrder)
  .refine(within(MOST_FAR_DAYS), { message: problem('overElevenYears'), path: ['toDay'] })
  .refine((r) => (r.bayId === null) !== (r.personId === null), {
    message: problem('oneOfTwo'),
    path: ['cell'],
  });

/** The shop with its hours, bays and people: every figure is read off them. */
const shopTopics = ['shop', 'bays', 'people'] as const;
/** Whose car it is, and which. */
const carTopics = ['customers', 'vehicles'] as const;
const moneyTopics = ['invoices', 'payments', 'quotes'] as const;

/** Queries of the figures area: the owner's look back. Both days of a range are included. */
export const figuresEntries = {
  'figures.utilization': read<UtilizationView>()({
    needs: 'owner',
    about:
      'How the open hours of each bay and the shifts of each technician were spent by day, week or month; the parts sum to them to the minute.',
    input: hoursRange,
    listens: [...shopTopics, 'work', 'plan', 'jobs'],
  }),
  'figures.hoursFile': document()({
    needs: 'owner',
    about: 'The table behind the hours as CSV.',
    input: hoursRange,
  }),
  'figures.cellJobs': read<CellJobsView>()({
    needs: 'owner',
    about: 'The jobs behind one cell of the bay hours, of one bay or of one technician.',
    input: cellInput,
    listens: [...shopTopics, ...carTopics, 'work', 'plan', 'jobs'],
  }),
  'figures.honesty': read<HonestyView>()({
    needs: 'owner',
    about: 'Estimated against actual, per stage, technician and paint, and the share kept within P80.',
    input: farRange,
    listens: [...shopTopics, ...carTopics, 'work', 'jobs', 'paint'],
  }),
  'figures.honestyFile': document()({
    needs: 'owner',
    about: 'A table behind the honest hours as CSV.',
    input: withTable(HONESTY_TABLES),
  }),
  'figures.moneyFile': document()({
    needs: 'owner',
    about: 'A table behind the money figures as CSV.',
    input: withTable(MONEY_TABLES),
  }),
  'figures.margin': read<MarginView>()({
    needs: 'owner',
    about: 'What collected jobs brought: net, material and hours.',
    input: range,
    listens: [...shopTopics, ...carTopics, 'invoices', 'payments', 'stock', 'work', 'jobs'],
  }),
  'figures.money': read<MoneyFiguresView>()({
    needs: 'owner',
    about:
      'Revenue, material, hours and margin of the jobs collected, by kind, technician and time; money held and owed now; quotes, redone work, returning customers.',
    input: farRange,
    listens: [...shopTopics, ...carTopics, ...moneyTopics, 'stock', 'work', 'plan', 'jobs'],
  }),
  'figures.monday': read<MondayView>()({
    needs: 'owner',
    about:
      'The five things worth doing this week, the most worth first, each with its number and its reason.',
    input: z.strictObject({}),
    listens: [
      ...[...shopTopics, ...carTopics, ...moneyTopics],
      ...['work', 'plan', 'jobs', 'stock', 'orders', 'estimates', 'paint'],
    ],
  }),
  'figures.mondayFile': document()({
    needs: 'owner',
    about: 'The same on one page to print.',
    input: z.strictObject({}),
  }),
} as const satisfies Readonly<Record<string, Entry>>;
