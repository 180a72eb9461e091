import type { WriteCtx } from '../../context.ts';
import type { baysEntries } from '../../shared/catalogue/bays.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import { deleteDust, deleteGap, findBay, hasDust, insertDust, saveGap } from '../store/setup.ts';

type In<N extends keyof typeof baysEntries> = InputOf<(typeof baysEntries)[N]>;

/** Sets the time between a stage and the next; it holds for every car from now on. @throws SPAN_REVERSED */
export function setGap(ctx: WriteCtx, input: In<'bays.setGap'>): null {
  if (input.mostMin !== null && input.mostMin < input.leastMin) refuse('SPAN_REVERSED', { field: 'mostMin' });
  saveGap(ctx.db, input);
  ctx.changed(input.stage, 'gap');
  return null;
}

/** @throws NOT_FOUND */
export function dropGap(ctx: WriteCtx, input: In<'bays.dropGap'>): null {
  if (!deleteGap(ctx.db, input.stage)) refuse('NOT_FOUND', { what: 'gap', id: input.stage });
  ctx.changed(input.stage, 'gap');
  return null;
}

/** Puts two bays, or all of them, in each other's dust. Said twice, it stays as it is. @throws NOT_FOUND · SAME_BAY */
export function addDust(ctx: WriteCtx, input: In<'bays.addDust'>): null {
  const pair = input.pair?.toSorted() ?? [];
  for (const id of pair) if (!findBay(ctx.db, id)) refuse('NOT_FOUND', { what: 'bay', id });
  const [bayA = null, bayB = null] = pair;
  if (bayA !== null && bayA === bayB) refuse('SAME_BAY', {});
  if (hasDust(ctx.db, bayA, bayB)) return null;
  const id = ctx.newId<string>();
  insertDust(ctx.db, { id, bayA, bayB });
  ctx.changed(id, 'dust');
  return null;
}

/** @throws NOT_FOUND */
export function dropDust(ctx: WriteCtx, input: In<'bays.dropDust'>): null {
  if (!deleteDust(ctx.db, input.id)) refuse('NOT_FOUND', { what: 'dust', id: input.id });
  ctx.changed(input.id, 'dust');
  return null;
}
