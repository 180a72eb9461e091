import { describe, expect, test } from 'vitest';
import { columnsOf } from '#core/bays/rules/columns.ts';
import { begin, findNext, startOver } from '#core/bays/rules/dispatch.ts';
import { minutesOf } from '#core/bays/rules/draws.ts';
import type { Board, Piece, StageSpec, Stay } from '#core/bays/rules/model.ts';
import { networkOf } from '#core/bays/rules/network.ts';
import { rosterOf } from '#core/bays/rules/roster.ts';
import { emptyRun, inOrder, type Run } from '#core/bays/rules/run.ts';
import type { BayId, JobId, PersonId, StageId } from '#core/shared/ids.ts';
import { seeded } from '#core/shared/random.ts';
import { board, job, person, place, stage } from './boards.ts';
import { randomBoard } from './randomShop.ts';

const RUNS = 12;
const BOARDS = Number(process.env['RAKELIGHT_BOARDS'] ?? 150);

describe('what is begun next', () => {
  test('is the same whether lines keep what they knew of their start or all look for it anew', () => {
    let begun = 0;
    for (let seed = 1; seed <= BOARDS; seed += 1) {
      const { b } = randomBoard(seeded(seed));
      if (b.plans.size === 0) continue;
      const [kept, anew] = [runOf(b, seed), runOf(b, seed)];
      for (let turn = 0; turn < RUNS; turn += 1) {
        const course = played(kept, turn, () => {});
        expect(course, `board ${seed}, run ${turn}`).toEqual(played(anew, turn, forgetAll));
        begun += course.length;
      }
    }
    expect(begun).toBeGreaterThan(BOARDS * RUNS * 10);
  });

  test('who was waited for is not any more once they are busy for longer', () => {
    // Ann and Ben may cut, Ann alone washes. Y takes Ann at 100 until 120: from then on T waits no more for her.
    const b = shopOf([
      ['x', ['two', 'ann', 0, 100]],
      ['y', ['washing', 'ann', 40, 60]],
      ['v', ['two', 'ben', 41, 45], ['two', 'ann', 85, 95]],
      ['z', ['two', 'ben', 46, 75]],
      ['t', ['two', 'ann', 50, 60]],
    ]);
    expect(same(b)).toEqual(['x 0', 'v 41', 'z 46', 'y 100', 't 75', 'v 85']);
  });

  test('a bay that is left lets a car begin that was put off for longer', () => {
    const b = shopOf([
      ['h', ['b0', 'ben', 0, 10], ['b0', 'ben', 60, 100]],
      ['k', ['b1', 'ann', 1, 500]],
      ['m', ['two', 'eve', 5, 6], ['two', 'eve', 200, 210]],
      ['l', ['b0', 'cid', 10, 20]],
      ['p', ['two', 'cid', 20, 30]],
    ]);
    expect(same(b)).toEqual(['h 0', 'k 1', 'm 5', 'p 20', 'h 60', 'l 100', 'm 200']);
  });
});

function runOf(b: Board, seed: number): Run {
  const { lines, open, peopleCount, bayFirst } = networkOf(rosterOf(b), new Set());
  return emptyRun({
    columns: columnsOf(lines, open),
    sequence: inOrder(lines.length),
    draws: (l) => minutesOf(l, seed, RUNS),
    ...{ peopleCount, bayFirst },
  });
}

/** The course of a board on which all takes as long as it is planned, which is the same either way. */
function same(b: Board): readonly string[] {
  const [kept, anew] = [played(runOf(b, 1), 0, () => {}), played(runOf(b, 1), 0, forgetAll)];
  expect(kept).toEqual(anew);
  const { lines } = networkOf(rosterOf(b), new Set());
  return kept.map(([line = 0, start]) => `${lines[line]?.jobId} ${start}`);
}

type Work = readonly [bay: string, who: string, startMin: number, endMin: number];

/** A shop with three bays, one of them for two cars, in which all takes exactly as long as it is planned. */
function shopOf(cars: readonly (readonly [id: string, ...works: Work[]])[]): Board {
  const all = cars.map(([id, ...works]) => ({ id: id as JobId, works }));
  const kindOf = (bay: string): 'wash' | 'correction' => (bay === 'washing' ? 'wash' : 'correction');
  const specOf = (id: string, [bay, , from, to]: Work, i: number): StageSpec =>
    stage(`${id}${i}`, to - from, { bayKinds: [kindOf(bay)], skill: kindOf(bay), sigma: 0 });
  const pieceOf = (id: string, [bay, who, startMin, endMin]: Work, i: number): Piece => ({
    ...{ stageId: `${id}${i}` as StageId, bayId: bay as BayId, personIds: [who as PersonId] },
    ...{ startMin, endMin, dwellEndMin: endMin },
  });
  return board({
    places: [
      ...[place('b0', 'correction'), place('b1', 'correction'), place('two', 'correction', 2)],
      place('washing', 'wash', 2),
    ],
    technicians: [...new Set(all.flatMap((c) => c.works.map((w) => w[1])))].map((id) =>
      id === 'ben' ? { ...person(id), skills: ['correction'] } : person(id),
    ),
    jobs: new Map(
      all.map(({ id, works }) => [
        id,
        job(
          id,
          works.map((w, i) => specOf(id, w, i)),
        ),
      ]),
    ),
    plans: new Map(
      all.map(({ id, works }) => [
        id,
        { jobId: id, stays: staysOf(works), pieces: works.map((w, i) => pieceOf(id, w, i)) },
      ]),
    ),
  });
}

/** One stay from the first work to the last: all of it is in one place. */
function staysOf(works: readonly Work[]): readonly Stay[] {
  const [[bay, , arriveMin] = ['', '', 0], leaveMin = 0] = [works[0], works.at(-1)?.[3]];
  return [{ bayId: bay as BayId, arriveMin, leaveMin }];
}

/** Which line began when, into which bay and by whom, until nothing is left. */
function played(run: Run, turn: number, before: (run: Run) => void): readonly (number | undefined)[][] {
  const course: (number | undefined)[][] = [];
  run.turn = turn;
  startOver(run);
  for (before(run); findNext(run); before(run)) {
    const { line } = run;
    course.push([line, run.start[line], run.into[line], run.crew[line]]);
    begin(run);
  }
  return course;
}

function forgetAll({ live, count, known, start, least }: Run): void {
  for (const line of live.subarray(0, count)) {
    known[line] = 0;
    start[line] = least[line] ?? 0;
  }
}
