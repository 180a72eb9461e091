import { snapshot } from '../../db/snapshot.ts';
import type { ReadDb } from '../../db/types.ts';
import { DomainError } from '../../shared/errors.ts';
import type { EpochMs } from '../../shared/units.ts';
import { liveBoard } from '../../views/liveBoard.ts';
import { playAhead } from '../rules/ahead.ts';
import type { Board } from '../rules/model.ts';
import type { Memory } from '../rules/others.ts';
import { DICE } from '../rules/promised.ts';

/**
 * How the other cars went when offers were last asked for, for each connection that is open: it only saves time, since
 * whatever has changed meanwhile is played anew.
 */
const memories = new WeakMap<ReadDb, Memory>();

export function memoryOf(db: ReadDb): Memory {
  const memory = memories.get(db) ?? { others: null };
  memories.set(db, memory);
  return memory;
}

/**
 * Works out how the cars of the live board may go before offers are asked for: after a start, on a new day, once hours or people
 * were changed. Each step takes some milliseconds, and may be the last. Nothing is done for a shop that cannot be planned in yet.
 */
export function* offersAhead(db: ReadDb, nowMs: EpochMs): Generator<undefined, void> {
  const board = boardIfSetUp(db, nowMs);
  if (board) yield* playAhead(board, DICE, memoryOf(db));
}

function boardIfSetUp(db: ReadDb, nowMs: EpochMs): Board | null {
  try {
    return snapshot(db, () => liveBoard(db, { nowMs })).board;
  } catch (error) {
    if (error instanceof DomainError && NOT_YET.has(error.code)) return null;
    throw error;
  }
}
const NOT_YET: ReadonlySet<string> = new Set(['SHOP_NOT_SET_UP', 'HOURS_NOT_SET']);
