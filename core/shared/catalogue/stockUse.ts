import { z } from 'zod';
import { type Entry, read, write } from '../entry.ts';
import type { OpenCountView, PadRow, PadsUsed, UseWithoutItem } from '../views/stock.ts';
import type { DrawnForStage, DrawResult, JobMaterialCost, ProposedDraw } from '../views/stockItem.ts';
import { MATERIALS } from '../vocabulary.ts';
import { jobIdInput } from './inputs.ts';
import {
  amountInput,
  drawInput,
  itemIdInput,
  padStateInput,
  someAmountInput,
  stockStageIdInput,
} from './stockInputs.ts';

const note = z.string().trim().max(300).default('');
const useIds = z.array(z.int().min(1)).min(1).max(500);
const pieces = z.int().min(1).max(10_000);

/** Commands and queries of use: draws, waste, returns, counts, pads and towels. */
export const stockUseEntries = {
  'stock.proposeDraws': read<readonly ProposedDraw[]>()({
    needs: 'technician',
    about: 'What a stage will have used by the plan and by what stages like it really used.',
    input: z.strictObject({ stageId: stockStageIdInput }),
    listens: ['stock', 'jobs', 'work'],
  }),
  'stock.drawForStage': write<DrawnForStage>()({
    needs: 'technician',
    about: 'Books what a stage used. Beyond book stock it is saved and opens a count.',
    input: z.strictObject({ stageId: stockStageIdInput, draws: z.array(drawInput).max(60) }),
    touches: ['stock', 'jobs', 'work'],
  }),
  'stock.correctDraw': write<DrawResult>()({
    needs: 'technician',
    about: 'Corrects a draw to what was really used, by a further ledger line.',
    input: z.strictObject({ movementId: z.int().min(1), amount: amountInput }),
    touches: ['stock', 'jobs'],
  }),
  'stock.usesWithoutItem': read<readonly UseWithoutItem[]>()({
    needs: 'desk',
    about: 'What stages used of a material while no item of it was kept, and nobody has settled since.',
    input: z.strictObject({ material: z.enum(MATERIALS) }),
    listens: ['stock', 'jobs', 'work'],
  }),
  'stock.giveUses': write<{ readonly given: number }>()({
    needs: 'desk',
    about: 'Takes from an item what stages used before it was kept, each with its job and stage.',
    input: z.strictObject({ useIds, itemId: itemIdInput }),
    touches: ['stock', 'jobs', 'work'],
  }),
  'stock.removeUses': write<{ readonly removed: number }>()({
    needs: 'desk',
    about: 'Takes such uses out of the jobs, with the reason: they were written down wrongly.',
    input: z.strictObject({ useIds, why: z.string().trim().min(3).max(300) }),
    touches: ['stock', 'jobs', 'work'],
  }),
  'stock.waste': write<DrawResult>()({
    needs: 'technician',
    about: 'Takes out what was dropped, spilt, dried up or out of date, with the reason.',
    input: z.strictObject({
      itemId: itemIdInput,
      amount: someAmountInput,
      why: z.string().trim().min(1).max(300),
      jobId: jobIdInput.nullable().default(null),
      /** It was in packs nobody had opened. */
      sealed: z.boolean().default(false),
    }),
    touches: ['stock'],
  }),
  'stock.returnItem': write<DrawResult>()({
    needs: 'desk',
    about: 'Takes out what goes back to the supplier.',
    input: z.strictObject({ itemId: itemIdInput, amount: someAmountInput, why: note }),
    touches: ['stock'],
  }),
  'stock.askCount': write<{ readonly opened: number }>()({
    needs: 'desk',
    about: 'Asks for counts: of the items named, or of everything.',
    input: z.strictObject({
      itemIds: z.array(itemIdInput).max(2000).default([]),
      all: z.boolean().default(false),
    }),
    touches: ['stock'],
  }),
  'stock.showCount': read<OpenCountView>()({
    needs: 'technician',
    about: 'The book of one item at this moment, to count against.',
    input: z.strictObject({ itemId: itemIdInput }),
    listens: ['stock'],
  }),
  'stock.count': write<{ readonly difference: number; readonly onHand: number; readonly since: number }>()({
    needs: 'technician',
    about: 'Says what is on the shelf. Draws booked after the ledger line named stay as they are.',
    input: z.strictObject({
      itemId: itemIdInput,
      counted: amountInput,
      asOfMovementId: z.int().min(0),
      /** Say yes to far more than ever came in. */
      acceptMore: z.boolean().default(false),
    }),
    touches: ['stock'],
  }),
  'stock.showPads': read<readonly PadRow[]>()({
    needs: 'technician',
    about: 'Pads and towels by where they are in their round, and which job will lack clean ones.',
    input: z.strictObject({}),
    listens: ['stock', 'orders', 'jobs', 'plan', 'shop'],
  }),
  'stock.padsUsed': write<PadsUsed>()({
    needs: 'technician',
    about:
      'Says that clean pads or towels are dirty now, outside a stage. More than the book had opens a count.',
    input: z.strictObject({ itemId: itemIdInput, pieces, jobId: jobIdInput.nullable().default(null) }),
    touches: ['stock'],
  }),
  'stock.padsWash': write<null>()({
    needs: 'technician',
    about: 'Puts dirty pieces in the wash, or takes washed ones out clean.',
    input: z.strictObject({ itemId: itemIdInput, pieces, step: z.enum(['in', 'out']) }),
    touches: ['stock'],
  }),
  'stock.padsRetire': write<null>()({
    needs: 'technician',
    about: 'Throws worn pieces away: out of the round and out of the ledger.',
    input: z.strictObject({ itemId: itemIdInput, pieces, from: padStateInput, why: note }),
    touches: ['stock'],
  }),
  'stock.jobCost': read<JobMaterialCost>()({
    needs: 'desk',
    about: 'What a job used, from the ledger, with the wear of pads and towels.',
    input: z.strictObject({ jobId: jobIdInput }),
    listens: ['stock', 'jobs'],
  }),
} as const satisfies Readonly<Record<string, Entry>>;
