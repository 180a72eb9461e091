import { z } from 'zod';
import { type Entry, read, write } from '../entry.ts';
import type { Remedy } from '../views/desk.ts';
import type { ChangeCheck } from '../views/plan.ts';
import type { PlanChange } from '../views/planChange.ts';
import { epochMinInput, stageIdInput, toldInput } from './baysInputs.ts';
import { jobIdInput, personIdInput } from './inputs.ts';

const block = z.strictObject({ jobId: jobIdInput, stageIds: z.array(stageIdInput).min(1).max(40) });
const stage = { jobId: jobIdInput, stageId: stageIdInput };

/** Changes to single stages and pairs of blocks, tried while they are held and then made. */
export const bayChangeEntries = {
  'bays.checkChange': read<ChangeCheck>()({
    needs: 'desk',
    about:
      'Whether two blocks may be swapped, a stage split or its end drawn; if not, the rule and what would do.',
    input: z.discriminatedUnion('kind', [
      z.strictObject({ kind: z.literal('swap'), a: block, b: block }),
      z.strictObject({
        kind: z.literal('split'),
        ...stage,
        atMin: epochMinInput,
        personId: personIdInput.optional(),
      }),
      z.strictObject({ kind: z.literal('resize'), ...stage, endMin: epochMinInput }),
    ]),
    listens: ['plan', 'bays', 'jobs', 'work'],
  }),
  'bays.waysOut': read<readonly Remedy[]>()({
    needs: 'desk',
    about: 'What would make the promise of one job surer, each tried on the board, with its chance.',
    input: z.strictObject({ jobId: jobIdInput }),
    listens: ['plan', 'bays', 'jobs', 'work', 'people', 'shop', 'stock'],
  }),
  'bays.resize': write<PlanChange>()({
    needs: 'desk',
    about:
      'Draws the end of a stage’s work to a minute: more time than estimated, never less than its work needs.',
    input: z.strictObject({
      planRevision: z.int().min(1),
      ...stage,
      endMin: epochMinInput,
      consent: z.boolean().default(false),
      told: toldInput,
    }),
    touches: ['plan', 'jobs', 'stock', 'figures'],
  }),
} as const satisfies Readonly<Record<string, Entry>>;
