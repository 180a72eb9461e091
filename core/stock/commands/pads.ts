import type { WriteCtx } from '../../context.ts';
import { invariant, refuse } from '../../shared/errors.ts';
import type { ItemId, JobId, StageId } from '../../shared/ids.ts';
import type { PadState, PadsUsed } from '../../shared/views/stock.ts';
import { knownJob } from '../../views/known.ts';
import { DEFAULT_USES, mayGo } from '../rules/pads.ts';
import type { ItemRecord } from '../store/items.ts';
import { openCount } from '../store/ledger.ts';
import { addPadEvent, insertBatch, padLevels } from '../store/pads.ts';
import { itemOf, postIn, postOut } from './post.ts';

type Because = { readonly jobId?: JobId | null; readonly stageId?: StageId | null; readonly note?: string };
type Step = {
  readonly from: PadState | null;
  readonly to: PadState;
  readonly used?: boolean;
  readonly lost?: boolean;
};

/** New pieces enter the round clean, as a batch of their own. */
export function addPieces(ctx: WriteCtx, item: ItemRecord, pieces: number, note: string): void {
  const batchId = ctx.newId<string>();
  insertBatch(ctx.db, {
    id: batchId,
    itemId: item.id,
    pieces,
    usesPerLife: item.usesPerLife ?? DEFAULT_USES,
    cameMs: ctx.now,
    note,
  });
  event(ctx, batchId, pieces, { from: null, to: 'clean' }, { note });
}

function event(ctx: WriteCtx, batchId: string, pieces: number, step: Step, because: Because): void {
  invariant(step.from === null || mayGo(step.from, step.to), 'a step of the round');
  addPadEvent(ctx.db, {
    batchId,
    fromState: step.from,
    toState: step.to,
    pieces,
    used: step.used ?? false,
    lost: step.lost ?? false,
    jobId: because.jobId ?? null,
    stageId: because.stageId ?? null,
    personId: ctx.actor?.personId ?? null,
    atMs: ctx.now,
    note: because.note ?? '',
  });
}

/** Moves as many pieces as are there, oldest batch first; returns how many were not there. */
function move(ctx: WriteCtx, itemId: ItemId, pieces: number, step: Step, because: Because): number {
  let left = pieces;
  for (const row of padLevels(ctx.db, itemId)) {
    if (left === 0) break;
    if (row.state !== step.from) continue;
    const take = Math.min(left, row.pieces);
    event(ctx, row.batchId, take, step, because);
    left -= take;
  }
  ctx.changed(itemId, 'pads');
  return left;
}

function piecesIn(ctx: WriteCtx, itemId: ItemId, state: PadState): number {
  return padLevels(ctx.db, itemId).reduce((sum, row) => sum + (row.state === state ? row.pieces : 0), 0);
}

function moveAll(ctx: WriteCtx, item: ItemRecord, pieces: number, step: Step, because: Because): void {
  const state = step.from ?? 'clean';
  const has = piecesIn(ctx, item.id, state);
  if (has < pieces) refuse('PADS_NOT_THERE', { item: item.name, state, has, asked: pieces });
  move(ctx, item.id, pieces, step, because);
}

/**
 * Books a use of pieces: clean ones go dirty. What is missing was used all the same: dirty ones a second time, then
 * pieces nobody had written down, which enter round and ledger; either way a count is opened unless one is open.
 * Returns whether it was, and how many pieces were found so.
 */
export function dirtyPieces(ctx: WriteCtx, item: ItemRecord, pieces: number, because: Because): PadsUsed {
  const missing = move(ctx, item.id, pieces, { from: 'clean', to: 'dirty', used: true }, because);
  if (missing === 0) return { found: 0, countOpened: false };
  const again = move(ctx, item.id, Math.min(missing, piecesIn(ctx, item.id, 'dirty')), AGAIN, because);
  const found = missing - Math.min(missing, piecesIn(ctx, item.id, 'dirty')) + again;
  if (found > 0) {
    postIn(ctx, item.id, found, null, { reason: 'found' });
    addPieces(ctx, item, found, '');
    move(ctx, item.id, found, { from: 'clean', to: 'dirty', used: true }, because);
  }
  const count = { id: ctx.newId<string>(), itemId: item.id, why: 'negative', openedMs: ctx.now } as const;
  return { found, countOpened: openCount(ctx.db, count) };
}
const AGAIN: Step = { from: 'dirty', to: 'dirty', used: true };

/**
 * The item, if it goes round.
 * @throws NOT_REUSABLE when it is used up instead
 */
export function roundItem(ctx: WriteCtx, itemId: ItemId): ItemRecord {
  const item = itemOf(ctx, itemId);
  return item.reusable ? item : refuse('NOT_REUSABLE', { item: item.name });
}

/**
 * Clean pieces are dirty now, outside a stage. More than the book had is saved all the same, said and counted, as
 * with a stage.
 * @throws NOT_REUSABLE; NOT_FOUND when the item or the job named is not there
 */
export function padsUsed(
  ctx: WriteCtx,
  input: { readonly itemId: ItemId; readonly pieces: number; readonly jobId: JobId | null },
): PadsUsed {
  const item = roundItem(ctx, input.itemId);
  return dirtyPieces(ctx, item, input.pieces, { jobId: knownJob(ctx.db, input.jobId) });
}

/**
 * Dirty pieces go into the wash, or washed ones come out clean.
 * @throws PADS_NOT_THERE when fewer are in that state
 */
export function padsWash(
  ctx: WriteCtx,
  input: { readonly itemId: ItemId; readonly pieces: number; readonly step: 'in' | 'out' },
): null {
  const item = roundItem(ctx, input.itemId);
  const step: Step =
    input.step === 'in' ? { from: 'dirty', to: 'washing' } : { from: 'washing', to: 'clean' };
  moveAll(ctx, item, input.pieces, step, {});
  return null;
}

/**
 * Worn pieces leave the round and the ledger.
 * @throws PADS_NOT_THERE when fewer are in that state
 */
export function padsRetire(
  ctx: WriteCtx,
  input: {
    readonly itemId: ItemId;
    readonly pieces: number;
    readonly from: Exclude<PadState, 'retired'>;
    readonly why: string;
  },
): null {
  const item = roundItem(ctx, input.itemId);
  moveAll(ctx, item, input.pieces, { from: input.from, to: 'retired' }, { note: input.why });
  postOut(ctx, item.id, input.pieces, { reason: 'retire', note: input.why });
  return null;
}

/** Makes the round agree with a count: found pieces come in clean, missing ones are lost, clean ones last. */
export function matchRound(ctx: WriteCtx, item: ItemRecord, difference: number): void {
  if (difference > 0) addPieces(ctx, item, difference, '');
  let left = Math.max(0, -difference);
  for (const from of ['dirty', 'washing', 'clean'] as const)
    left = left > 0 ? move(ctx, item.id, left, { from, to: 'retired', lost: true }, {}) : 0;
}
