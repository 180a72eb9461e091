import { z } from 'zod';
import { type Entry, read, write } from '../entry.ts';
import { CLOSED_AS, type ContainerRead, type ContainerView } from '../views/stockContainers.ts';
import { idOf, localDayInput } from './inputs.ts';
import { itemIdInput, someAmountInput } from './stockInputs.ts';

const containerId = idOf<string>();
const massMg = z.int().min(0).max(100_000_000);

/** A level in eighths or per cent, or what the scales say: mg, and grams a litre where a volume is weighed. */
const readingInput = z.union([
  z.strictObject({ level: z.int().min(0).max(8), of: z.literal(8) }),
  z.strictObject({ level: z.int().min(0).max(100), of: z.literal(100) }),
  z.strictObject({
    grossMg: massMg,
    tareMg: massMg,
    gramsPerLitre: z.int().min(300).max(3000).nullable().default(null),
  }),
]);
export type ReadingInput = z.output<typeof readingInput>;

/** Commands and queries of what is open: bottles, tubs and rolls in use. */
export const stockContainerEntries = {
  'stock.containers': read<readonly ContainerView[]>()({
    needs: 'technician',
    about: 'Opened containers of an item, the one opened first in front, with what is left in each.',
    input: z.strictObject({ itemId: itemIdInput }),
    listens: ['stock', 'work'],
  }),
  'stock.openContainer': write<{ readonly containerId: string }>()({
    needs: 'technician',
    about:
      'Says that a container was opened: from then on its opened life runs. A pack unless it holds else.',
    input: z.strictObject({
      itemId: itemIdInput,
      holds: someAmountInput.nullable().default(null),
      openedDay: localDayInput.nullable().default(null),
      batch: z.string().trim().max(60).default(''),
    }),
    touches: ['stock'],
  }),
  'stock.readContainer': write<ContainerRead>()({
    needs: 'technician',
    about: 'Says what is left in an opened container, by level or weight, and puts the book right by it.',
    input: z.strictObject({ containerId, read: readingInput }),
    touches: ['stock'],
  }),
  'stock.closeContainer': write<{ readonly amount: number; readonly onHand: number }>()({
    needs: 'technician',
    about: 'Says that an opened container is empty, or was thrown away with what was in it and why.',
    input: z.strictObject({
      containerId,
      as: z.enum(CLOSED_AS),
      why: z.string().trim().max(300).default(''),
    }),
    touches: ['stock'],
  }),
} as const satisfies Readonly<Record<string, Entry>>;
