import { z } from 'zod';
import { document, type Entry, read, write } from '../entry.ts';
import type { CountImportReport, CountPlan } from '../views/stockCounts.ts';

const csvText = z.string().max(900_000);

/** The day's count: what is to be counted, as a page, as a list, and read back. */
export const stockCountEntries = {
  'stock.countPlan': read<CountPlan>()({
    needs: 'technician',
    about: 'What is to be counted today: asked for, in its turn by what its use is worth, or doubted.',
    input: z.strictObject({}),
    listens: ['stock', 'shop'],
  }),
  'stock.countList': document()({
    needs: 'technician',
    about: 'The day’s count list, as a page with lines to write on or as CSV to fill in and read back.',
    input: z.strictObject({ as: z.enum(['pdf', 'csv']).default('pdf') }),
  }),
  'stock.checkCounts': read<CountImportReport>()({
    needs: 'desk',
    about: 'What a filled-in count list would change, and where it does not fit. Changes nothing.',
    input: z.strictObject({ csv: csvText }),
    listens: ['stock'],
  }),
  'stock.importCounts': write<CountImportReport>()({
    needs: 'desk',
    about: 'Takes over a filled-in count list whole; with one fault in it nothing is taken.',
    input: z.strictObject({ csv: csvText }),
    touches: ['stock'],
  }),
} as const satisfies Readonly<Record<string, Entry>>;
