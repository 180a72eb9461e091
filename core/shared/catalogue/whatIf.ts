import { z } from 'zod';
import { type Entry, read, task } from '../entry.ts';
import type { WhatIfStart, WhatIfView } from '../views/whatIf.ts';
import { whatIfChange } from '../whatIfChange.ts';

/** What another bay, person, shift, mix or price would bring. */
export const whatIfEntries = {
  'figures.whatIfStart': read<WhatIfStart>()({
    needs: 'owner',
    about: 'What a what-if starts from: bays, people, kinds of jobs, and whether the record is long enough.',
    input: z.strictObject({}),
    listens: ['bays', 'people', 'jobs', 'shop'],
  }),
  'figures.whatIf': task<WhatIfView>()({
    needs: 'owner',
    about: 'Runs the shop’s own arrivals and hours through it before and after a change, with bands.',
    input: z.strictObject({
      change: whatIfChange,
      /** Left out: as many as give steady bands, fewer of a shop with many jobs. */
      rounds: z.int().min(10).max(400).optional(),
      seed: z.int().min(1).max(100_000).default(1),
    }),
  }),
} as const satisfies Readonly<Record<string, Entry>>;
