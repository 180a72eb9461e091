import { z } from 'zod';
import { type Entry, read, write } from '../entry.ts';
import { problem } from '../problems.ts';
import {
  CONDITIONS,
  type EstimatePreview,
  type EstimateView,
  type ExplainView,
  type LearningView,
  PAIR_STAGES,
  PROTECTIONS,
  type SandingOptionView,
  type StairView,
  WISHES,
} from '../views/estimate.ts';
import { BODY_STYLES, LEVELS, PAINT_HARDNESS, PANELS } from '../vocabulary.ts';
import { idOf, jobIdInput } from './inputs.ts';
import { allowance, sanding } from './paintInputs.ts';

const levels = z
  .array(z.strictObject({ panel: z.enum(PANELS), level: z.enum(LEVELS) }))
  .max(PANELS.length)
  .refine((all) => new Set(all.map((l) => l.panel)).size === all.length, problem('panelTwice'));
/** Minutes of attended work, or minor units with tax. */
const ceiling = z.strictObject({
  kind: z.enum(['hours', 'money']),
  value: z.int().min(0).max(1_000_000_000),
});
const asked = {
  interior: z.boolean().default(false),
  protection: z.enum(PROTECTIONS).default('sealant'),
} as const;
const made = write<{ readonly estimateId: string; readonly version: number }>();

/** Commands and queries of the estimate area. */
export const estimateEntries = {
  'estimate.preview': read<EstimatePreview>()({
    needs: 'desk',
    about: 'Hours and price as told on the telephone, before there is a job; nothing is kept.',
    input: z.strictObject({
      body: z.enum(BODY_STYLES),
      hardness: z.enum(PAINT_HARDNESS).default('unknown'),
      wish: z.enum(WISHES),
      condition: z.enum(CONDITIONS).default('unknown'),
      ceiling: ceiling.nullable().default(null),
      ...asked,
    }),
    listens: ['estimates', 'work', 'shop', 'stock'],
  }),
  'estimate.provisional': made({
    needs: 'desk',
    about: 'A first version from body style, stated condition and wish, with a wide range.',
    input: z.strictObject({
      jobId: jobIdInput,
      wish: z.enum(WISHES),
      condition: z.enum(CONDITIONS).default('unknown'),
      ceiling: ceiling.nullable().default(null),
      ...asked,
    }),
    touches: ['estimates', 'jobs', 'plan', 'stock'],
  }),
  'estimate.fromInspection': made({
    needs: 'technician',
    about:
      'A version built from the panels as inspected, with all test spots; within a ceiling if one is given.',
    input: z.strictObject({
      jobId: jobIdInput,
      wish: z.enum(WISHES).optional(),
      interior: z.boolean().optional(),
      protection: z.enum(PROTECTIONS).optional(),
      ceiling: ceiling.nullable().default(null),
      alike: z.boolean().default(false),
    }),
    touches: ['estimates', 'paint', 'jobs', 'plan', 'stock'],
  }),
  'estimate.again': made({
    needs: 'technician',
    about: 'A version with the same levels, as the car is known now: with readings and findings noted since.',
    input: z.strictObject({ jobId: jobIdInput }),
    touches: ['estimates', 'paint', 'jobs', 'plan', 'stock'],
  }),
  'estimate.choose': made({
    needs: 'technician',
    about: 'A version with the levels named, panel by panel; panels not named keep theirs.',
    input: z.strictObject({ jobId: jobIdInput, levels }),
    touches: ['estimates', 'paint', 'jobs', 'plan', 'stock'],
  }),
  'estimate.agreeSanding': made({
    needs: 'technician',
    about:
      'The owner agrees to wet sand a panel, and it is planned, in one; past the film rules under a name with a reason.',
    input: z.strictObject({
      ...sanding,
      allow: z.strictObject(allowance).nullable().default(null),
    }),
    touches: ['estimates', 'paint', 'jobs', 'plan', 'stock'],
  }),
  'estimate.withdrawSanding': write<null>()({
    needs: 'technician',
    about: 'Takes such a consent back; where the newest version sands the panel, a new one does not.',
    input: z.strictObject({ jobId: jobIdInput, panel: z.enum(PANELS) }),
    touches: ['estimates', 'paint', 'jobs', 'plan', 'stock'],
  }),
  'estimate.hands': made({
    needs: 'technician',
    about: 'The same version with the stages named done by two people together, all others by one.',
    input: z.strictObject({ jobId: jobIdInput, two: z.array(z.enum(PAIR_STAGES)).max(PAIR_STAGES.length) }),
    touches: ['estimates', 'paint', 'jobs', 'plan', 'stock'],
  }),
  'estimate.bestWithin': read<StairView>()({
    needs: 'technician',
    about: 'The stair of exact best choices, and the best one under a ceiling in hours or money.',
    input: z.strictObject({
      jobId: jobIdInput,
      measure: z.enum(['hours', 'money']).default('hours'),
      ceiling: z.int().min(0).max(1_000_000_000).nullable().default(null),
      alike: z.boolean().default(false),
    }),
    listens: ['estimates', 'paint', 'work', 'shop', 'stock'],
  }),
  'estimate.sanding': read<readonly SandingOptionView[]>()({
    needs: 'technician',
    about: 'Panels with damage that only wet sanding reaches: film, hours and price it adds, and consent.',
    input: z.strictObject({ jobId: jobIdInput }),
    listens: ['estimates', 'paint', 'work', 'shop', 'stock'],
  }),
  'estimate.ofJob': read<readonly EstimateView[]>()({
    needs: 'technician',
    about: 'All versions of a job’s estimate, newest first, with evidence and limits.',
    input: z.strictObject({ jobId: jobIdInput }),
    listens: ['estimates'],
  }),
  'estimate.explain': read<ExplainView>()({
    needs: 'technician',
    about: 'The inputs, the rule and the source of one figure of an estimate.',
    input: z.strictObject({
      estimateId: idOf<string>(),
      figure: z.enum(['hours', 'price', 'gain', 'removal', 'safe']),
      panel: z.enum(PANELS).nullable().default(null),
    }),
    listens: ['estimates', 'paint', 'shop'],
  }),
  'estimate.learning': read<LearningView>()({
    needs: 'technician',
    about: 'Estimated against actual: what finished work has taught, and how often P80 held.',
    input: z.strictObject({ rows: z.int().min(0).max(200).default(40) }),
    listens: ['work', 'paint', 'jobs', 'estimates'],
  }),
} as const satisfies Readonly<Record<string, Entry>>;
