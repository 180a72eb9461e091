import { playAhead } from '#core/bays/rules/ahead.ts';
import type { Choice } from '#core/bays/rules/choice.ts';
import { offersFor } from '#core/bays/rules/choices.ts';
import type { Board, JobPlan, JobSpec, StageSpec } from '#core/bays/rules/model.ts';
import type { Memory, Others } from '#core/bays/rules/others.ts';
import { DICE } from '#core/bays/rules/promised.ts';
import { seeded } from '#core/shared/random.ts';
import { both, car, placeOne } from './bays.ts';
import { type BenchRow, ms, type Times, timed } from './measure.ts';

const ASKS = 40;
const WISH = { notBeforeMin: 0, technicianId: null, day: null, count: 3, levelPpm: 800_000 };
/** Ten in the morning of the first day: cars stand there and are worked on. */
const FIRST_ASK_MIN = 600;
/** Between two calls. */
const MINUTES_APART = 4;

/**
 * One placement, and three offers with their chances: on a board that nothing is known of; on one whose cars were played ahead
 * by a reader that nobody asked for a while, which a start, a new day and other hours need; on the same board for one car after
 * the other; and as at a desk, each some minutes after the one before, whose car was booked on one of its three dates in turn.
 */
export async function offerRows(what: string, b: Board, placed: string): Promise<readonly BenchRow[]> {
  const random = seeded(9);
  const cars = Array.from({ length: ASKS }, (_, i) => car(1000 + i, random));
  const of = (i: number): JobSpec => cars[(i + ASKS) % ASKS] as JobSpec;
  const one = await timed(ASKS, (i) => placeOne(b, of(i)));
  const begun = at(b, FIRST_ASK_MIN);
  const cold = await timed(ASKS, (i) => offersFor(begun, of(i), WISH));
  const later = at(b, FIRST_ASK_MIN + MINUTES_APART);
  const ahead = aheadOf(begun);
  const first = await timed(ASKS, (i) => offersFor(later, of(i), WISH, ahead.memory()), ahead.play);
  const memory: Memory = { others: null };
  const same = await timed(ASKS, (i) => offersFor(begun, of(i), WISH, memory));
  const desk = deskOf(b);
  const booked = await timed(
    ASKS,
    (i) => desk.ask(of(i)),
    (i, choices) => desk.book(of(i), choices, i),
  );
  const offers = `three offers with their chances, ${what}`;
  const asked = 'p95 < 150 ms';
  return [
    { what: `one exact earliest placement, ${what}`, measured: both(one), asked: placed },
    { what: `${offers}: nothing known`, measured: both(cold), beside: worked(cold) },
    {
      what: `${offers}: nothing asked yet, played ahead ${MINUTES_APART} min before`,
      measured: both(first),
      ...{ asked, beside: `${worked(first)}; ${ahead.took()}` },
    },
    { what: `${offers}: the same board`, measured: both(same), beside: worked(same), asked },
    {
      what: `${offers}: one booked and ${MINUTES_APART} min on each time`,
      measured: both(booked),
      asked,
      beside: `${worked(booked)}; ${keeps(desk.memory.others)}`,
    },
  ];
}

/** A reader that plays a board ahead in spare time, again and again; how long that took, and its longest step. */
function aheadOf(b: Board) {
  let memory: Memory = { others: null };
  const [steps, wholes]: [number[], number[]] = [[], []];
  const play = (): void => {
    memory = { others: null };
    const ahead = playAhead(b, DICE, memory);
    const start = performance.now();
    for (let from = start, done = false; !done; from = performance.now()) {
      done = ahead.next().done === true;
      steps.push(performance.now() - from);
    }
    wholes.push(performance.now() - start);
  };
  play();
  return {
    play,
    memory: () => memory,
    took: () => {
      const [step, whole] = [steps, wholes].map((t) => t.sort((x, y) => x - y));
      const [p95, longest] = [step?.[Math.floor(step.length * 0.95)] ?? 0, step?.at(-1) ?? 0];
      return `ahead ${ms(whole?.[whole.length >> 1] ?? 0)} in steps of p95 ${ms(p95)}, longest ${ms(longest)}`;
    },
  };
}

/** The board and the clock of a desk that books what it offers. */
function deskOf(b: Board) {
  const memory: Memory = { others: null };
  let [plan, nowMin] = [b, FIRST_ASK_MIN];
  return {
    memory,
    ask: (j: JobSpec): readonly Choice[] =>
      offersFor(at(plan, nowMin), j, { ...WISH, notBeforeMin: nowMin + 15 }, memory),
    book: (j: JobSpec, choices: readonly Choice[], i: number): void => {
      nowMin += MINUTES_APART;
      const chosen = choices[Math.abs(i) % Math.max(1, choices.length)]?.placement.plan;
      if (chosen) plan = withPlan(plan, j, chosen);
    },
  };
}

function withPlan(b: Board, j: JobSpec, chosen: JobPlan): Board {
  return { ...b, jobs: new Map(b.jobs).set(j.id, j), plans: new Map(b.plans).set(j.id, chosen) };
}

/** The board at a minute when all has gone as planned: what is over is done, what is planned for now runs. */
function at(b: Board, nowMin: number): Board {
  return { ...b, nowMin, jobs: new Map([...b.jobs].map(([id, j]) => [id, jobAt(b, j, nowMin)])) };
}

function jobAt(b: Board, j: JobSpec, nowMin: number): JobSpec {
  const plan = b.plans.get(j.id);
  const stages = j.stages.map((s): StageSpec => {
    const own = plan?.pieces.filter((p) => p.stageId === s.id) ?? [];
    const startMin = Math.min(...own.map((p) => p.startMin));
    if (startMin > nowMin) return s;
    if (own.every((p) => p.endMin <= nowMin)) return { ...s, state: 'done' };
    return { ...s, state: 'inWork', workedMin: nowMin - startMin };
  });
  const stay = plan?.stays.find((s) => s.arriveMin <= nowMin && nowMin < s.leaveMin);
  return { ...j, stages, start: stay ? { kind: 'here', bayId: stay.bayId, fromMin: nowMin } : j.start };
}

function worked({ cpu }: Times): string {
  return `processor ${both(cpu)}`;
}

/** What is remembered in the end. */
function keeps(others: Others | null): string {
  const stands = others?.stands ?? [];
  const columns = stands.flatMap((s) => [
    s.peopleFree,
    s.bayFree,
    s.held,
    s.count,
    s.line,
    s.begun,
    s.bay,
    s.free,
  ]);
  const drawn = others?.network.lines.flatMap((l) => others.minutes.get(l) ?? []) ?? [];
  const bytes = [...columns, ...drawn].reduce((sum, c) => sum + c.byteLength, 0);
  return `${stands.length} days remembered, ${(bytes / 1e6).toFixed(0)} MB`;
}
