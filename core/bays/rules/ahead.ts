import { NEVER } from './calendar.ts';
import type { Board } from './model.ts';
import { DAY_MIN, type Dice, knownOf, type Memory, type Others, othersOf, playOthers } from './others.ts';
import { rosterOf } from './roster.ts';

/**
 * Plays all cars of a board ahead before anybody asks, a day with each step, until the last that is planned was to be begun.
 * It only saves time: whoever asks in between goes on from there, and this ends. What is remembered of the same shop is played
 * on as it is, whatever its cars do by now: only a question needs them as they are, and makes over just what differs.
 */
export function* playAhead(board: Board, dice: Dice, memory: Memory): Generator<undefined, void> {
  const others = knownOf(rosterOf(board), dice, memory) ?? othersOf(board, null, dice, memory);
  const lastMin = lastStart(others);
  for (let at = reachOf(others); at <= lastMin; at = reachOf(others)) {
    yield;
    if (memory.others !== others) return;
    playOthers(others, at + DAY_MIN);
    if (reachOf(others) === at) return;
  }
}

/** How far they were played. */
function reachOf({ stands, roster }: Others): number {
  return stands.at(-1)?.untilMin ?? roster.board.nowMin;
}

function lastStart({ network }: Others): number {
  return network.lines.reduce((last, { nodes }) => Math.max(last, nodes.at(-1)?.startMin ?? -NEVER), -NEVER);
}
