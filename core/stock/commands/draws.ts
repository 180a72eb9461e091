import type { WriteCtx } from '../../context.ts';
import { oneRow } from '../../db/prepared.ts';
import type { DrawInput } from '../../shared/catalogue/stockInputs.ts';
import { refuse } from '../../shared/errors.ts';
import type { ItemId, JobId, StageId } from '../../shared/ids.ts';
import { MATERIAL_UNITS } from '../../shared/materialUnits.ts';
import type { DrawnForStage, DrawResult, NotKept } from '../../shared/views/stockItem.ts';
import type { Material } from '../../shared/vocabulary.ts';
import { knownJob } from '../../views/known.ts';
import { openContainers } from '../../views/stockContainers.ts';
import { pickItem } from '../rules/draws.ts';
import { tooManyPieces } from '../rules/slips.ts';
import { type ItemRecord, itemsOfMaterial } from '../store/items.ts';
import { correctionsOf, findLine, levelOf } from '../store/ledger.ts';
import { addDrawWithoutItem } from '../store/withoutItem.ts';
import { carry } from './containers.ts';
import { dirtyPieces } from './pads.ts';
import { itemOf, type Movement, postIn, postOut } from './post.ts';

/**
 * Books what a stage used: liquids and the like leave the ledger at the moving average, pads and towels go dirty.
 * A draw beyond book stock is saved and opens a count. What was used of a material that the shop keeps no item of
 * is kept with the stage and named. Called when a stage is finished, in the same transaction.
 * @throws NOT_FOUND when the stage or an item named does not exist; TOO_MANY_PIECES of one of them
 */
export function drawForStage(
  ctx: WriteCtx,
  input: { readonly stageId: StageId; readonly draws: readonly DrawInput[] },
): DrawnForStage {
  const stage = oneRow<{ jobId: JobId }>(ctx.db, 'SELECT job_id AS jobId FROM job_stage WHERE id = :id', {
    id: input.stageId,
  });
  if (!stage) return refuse('NOT_FOUND', { what: 'stage', id: input.stageId });
  const because = { jobId: stage.jobId, stageId: input.stageId };
  const drawn: DrawResult[] = [];
  const notKept: NotKept[] = [];
  for (const draw of input.draws) {
    if (draw.amount === 0) continue;
    const item = 'itemId' in draw ? itemOf(ctx, draw.itemId) : itemFor(ctx, draw.material, draw.amount);
    if (item) drawn.push(drawOne(ctx, item, draw.amount, because));
    else if ('material' in draw) notKept.push(keepWithoutItem(ctx, draw, because));
  }
  ctx.changed(input.stageId, 'draws');
  return { stageId: input.stageId, drawn, notKept };
}

function keepWithoutItem(
  ctx: WriteCtx,
  { material, amount }: { readonly material: Material; readonly amount: number },
  because: { readonly jobId: JobId; readonly stageId: StageId },
): NotKept {
  if (tooManyPieces(MATERIAL_UNITS[material], amount)) refuse('TOO_MANY_PIECES', { item: '', material });
  const personId = ctx.actor?.personId ?? null;
  addDrawWithoutItem(ctx.db, { ...because, material, amount, personId, atMs: ctx.now });
  return { material, amount, unit: MATERIAL_UNITS[material] };
}

function itemFor(ctx: WriteCtx, material: Material, amount: number): ItemRecord | null {
  const items = itemsOfMaterial(ctx.db, material);
  const picked = pickItem(
    items.map(({ id: itemId, preference, onHand }) => ({ itemId, preference, onHand })),
    amount,
  );
  return items.find((i) => i.id === picked?.itemId) ?? null;
}

/** @throws TOO_MANY_PIECES */
function checkPieces({ name, unit }: Pick<ItemRecord, 'name' | 'unit'>, amount: number): void {
  if (tooManyPieces(unit, amount)) refuse('TOO_MANY_PIECES', { item: name, material: '' });
}

/** Takes one amount from one item for a stage: pieces that go round go dirty, all else leaves the ledger. */
export function drawOne(
  ctx: WriteCtx,
  item: ItemRecord,
  amount: number,
  because: { readonly jobId: JobId; readonly stageId: StageId },
): DrawResult {
  checkPieces(item, amount);
  if (!item.reusable)
    return drawnOf(item, amount, postOut(ctx, item.id, amount, { reason: 'draw', ...because }));
  const { found, countOpened } = dirtyPieces(ctx, item, amount, because);
  const onHand = levelOf(ctx.db, item.id)?.qty ?? 0;
  const posted = { valueMinor: 0 as DrawResult['valueMinor'], onHand, countOpened };
  return { ...drawnOf(item, amount, posted), beyond: found };
}

type Posted = Pick<Movement, 'valueMinor' | 'onHand' | 'countOpened'>;

/** What is said of an amount taken out, `out` of it by this line; below zero, the book did not have it. */
function drawnOf(item: ItemRecord, amount: number, posted: Posted, out = amount): DrawResult {
  return {
    ...{ itemId: item.id, itemName: item.name, unit: item.unit, amount },
    valueMinor: posted.valueMinor,
    onHandAfter: posted.onHand,
    beyond: Math.max(0, Math.min(out, -posted.onHand)),
    countOpened: posted.countOpened,
  };
}

/**
 * Corrects a draw to what was really used: the ledger keeps the first line and gets a second with the difference.
 * @throws NOT_A_DRAW when the line is no draw, or itself a correction; TOO_MANY_PIECES
 */
export function correctDraw(
  ctx: WriteCtx,
  input: { readonly movementId: number; readonly amount: number },
): DrawResult {
  const first = findLine(ctx.db, input.movementId);
  if (first?.reason !== 'draw' || first.correctsId !== null) return refuse('NOT_A_DRAW', {});
  const item = itemOf(ctx, first.itemId);
  const { jobId, stageId, id: correctsId } = first;
  const because = { reason: 'draw', jobId, stageId, correctsId } as const;
  checkPieces(item, input.amount);
  const corrected = correctionsOf(ctx.db, first.id);
  const drawn = { qty: first.qty + corrected.qty, valueMinor: first.valueMinor + corrected.valueMinor };
  const more = input.amount + drawn.qty;
  if (more > 0) return drawnOf(item, input.amount, postOut(ctx, item.id, more, because), more);
  const back = more < 0 ? postIn(ctx, item.id, -more, costBack(drawn, -more), because) : null;
  const onHand = back?.onHand ?? levelOf(ctx.db, item.id)?.qty ?? 0;
  const valueMinor = (back?.valueMinor ?? 0) as DrawResult['valueMinor'];
  return drawnOf(item, input.amount, { valueMinor, onHand, countOpened: false }, 0);
}

/** What goes back is worth what it was drawn at, corrections so far with it: all of it back leaves the job nothing. */
function costBack(drawn: { readonly qty: number; readonly valueMinor: number }, qty: number): number {
  return Math.round((-drawn.valueMinor * qty) / -drawn.qty);
}

/**
 * Takes out what was dropped, spilt or out of date; sealed packs leave what is opened as it is.
 * @throws RETIRE_INSTEAD for things that go round; TOO_MANY_PIECES; NOT_FOUND when the item or the job named is not there
 */
export function waste(
  ctx: WriteCtx,
  input: {
    readonly itemId: ItemId;
    readonly amount: number;
    readonly why: string;
    readonly jobId: JobId | null;
    readonly sealed: boolean;
  },
): DrawResult {
  const item = itemOf(ctx, input.itemId);
  if (item.reusable) return refuse('RETIRE_INSTEAD', { item: item.name });
  checkPieces(item, input.amount);
  const jobId = knownJob(ctx.db, input.jobId);
  const opened = input.sealed ? openContainers(ctx.db, item.id) : [];
  const out = postOut(ctx, item.id, input.amount, { reason: 'waste', jobId, note: input.why });
  carry(ctx, item, opened);
  return drawnOf(item, input.amount, out);
}

/**
 * Takes out what goes back to the supplier.
 * @throws MORE_THAN_THERE when the book has less: nobody can send back what is not there
 * @throws RETIRE_INSTEAD for things that go round
 */
export function returnItem(
  ctx: WriteCtx,
  input: { readonly itemId: ItemId; readonly amount: number; readonly why: string },
): DrawResult {
  const item = itemOf(ctx, input.itemId);
  if (item.reusable) return refuse('RETIRE_INSTEAD', { item: item.name });
  const has = levelOf(ctx.db, item.id)?.qty ?? 0;
  if (has < input.amount)
    return refuse('MORE_THAN_THERE', { item: item.name, has, asked: input.amount, unit: item.unit });
  const out = postOut(ctx, item.id, input.amount, { reason: 'return', note: input.why });
  return drawnOf(item, input.amount, out);
}
