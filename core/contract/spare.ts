import { offersAhead } from '../bays/commands/ahead.ts';
import type { ReadDb } from '../db/types.ts';
import type { EpochMs } from '../shared/units.ts';

/** What the reader does while nobody asks, in steps of some milliseconds: it only saves those time who ask next. */
export const spareWork: (db: ReadDb, nowMs: EpochMs) => Iterable<unknown> = offersAhead;
