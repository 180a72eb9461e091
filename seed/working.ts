import type { JobId, PersonId, StageId } from '../core/shared/ids.ts';
import type { StageView } from '../core/shared/views/bookings.ts';
import type { StageKind } from '../core/shared/vocabulary.ts';
import type { Car } from './cast.ts';
import { actAs, HOUR, MINUTE, type Stage } from './story.ts';

/** How a stage really goes: on whom, how long, what happens after. */
export type Shift = {
  readonly on: Stage;
  readonly car: Car;
  /** This one car is hard or easy in all its stages. */
  readonly jobFactor: number;
  /** The shop drifts: work takes longer in the second year than the first taught. */
  readonly drift: number;
  readonly jobId: JobId;
  /** The owner stops the job half way after this stage; null = not. */
  readonly stopAfter: StageKind | null;
};

const EARLY_MS = HOUR / 2;
/** Now and then a car waits between two stages: for a word of its owner, for a lamp, for the rain to end. */
const HELD_UP = 0.05;
/** Stages whose real time depends on the paint. */
const ON_PAINT = new Set(['sand', 'cut', 'refine', 'clay']);
const HARDNESS = { soft: 0.94, medium: 1, hard: 1.16, unknown: 1.05 } as const;

/** Minutes a stage really takes, whatever the program has learned: the plain model, times the car, the paint, chance. */
export function realMinutes(shift: Shift, stage: StageView): number {
  const { draw } = shift.on;
  const paint = ON_PAINT.has(stage.kind) ? HARDNESS[shift.car.paint.hardness] : 1;
  const cut = stage.kind === 'cut' ? 1.06 : 1;
  const tail = draw.chance(0.03) ? 1.5 : 1;
  return Math.max(
    3,
    Math.round(stage.estimatedMin * shift.jobFactor * paint * cut * shift.drift * tail * draw.factor(0.16)),
  );
}

/** Works the stages of a job one after the other, each in its turn of the clock; `then` is called when the car is ready. */
export function workThrough(
  shift: Shift,
  stages: readonly StageView[],
  atMs: number,
  then: (nowMs: number) => void,
): void {
  const [stage, ...rest] = stages;
  if (!stage) {
    then(atMs);
    return;
  }
  const { events, floor } = shift.on;
  // Who is free takes the next stage somewhat before its time.
  const planned = Math.max(atMs, (stage.place?.startMin ?? 0) * MINUTE - EARLY_MS);
  const who = workerFor(shift.on, stage, planned);
  const attended = stage.crew > 0 && who !== null;
  const startMs = attended ? floor.startFor(who, planned) : planned;
  const after = (now: number): void => {
    const waitMin = (attended ? stage.dwellMin : 0) + heldUpMin(shift.on);
    if (waitMin === 0) workThrough(shift, rest, now, then);
    else events.at(now + waitMin * MINUTE, (later) => workThrough(shift, rest, later, then));
  };
  if (startMs > atMs) events.at(startMs, (now) => workThrough(shift, stages, now, then));
  else if (attended) attend(shift, stage, who, atMs, { after, then });
  else stand(shift, stage, atMs, after);
}

function heldUpMin({ draw }: Stage): number {
  return draw.chance(HELD_UP) ? draw.int(60, 240) : 0;
}

/** Who was planned; somebody else who can do it when that person would let the car wait for hours. */
function workerFor({ floor, technicians }: Stage, stage: StageView, fromMs: number): PersonId | null {
  const planned = stage.place?.people[0]?.id ?? null;
  const able = technicians.filter((t) => t.skills.includes(stage.skill)).map((t) => t.id);
  const soonest = able.toSorted((a, b) => floor.startFor(a, fromMs) - floor.startFor(b, fromMs))[0] ?? null;
  if (planned === null || soonest === null) return planned ?? soonest;
  const patience = HOUR / 2;
  return floor.startFor(planned, fromMs) <= floor.startFor(soonest, fromMs) + patience ? planned : soonest;
}

/** A cure: nobody there, the clock runs. */
function stand(shift: Shift, stage: StageView, atMs: number, after: (nowMs: number) => void): void {
  const { on } = shift;
  const [anybody] = on.technicians;
  if (!anybody) return;
  actAs(on, anybody, atMs);
  on.door.write('bookings.startStage', { stageId: stage.id });
  on.events.at(atMs + Math.max(stage.dwellMin, stage.p50Min) * MINUTE, (now) => {
    actAs(on, anybody, now);
    on.door.write('bookings.finishStage', { stageId: stage.id });
    after(now);
  });
}

function attend(
  shift: Shift,
  stage: StageView,
  who: PersonId,
  atMs: number,
  { after, then }: { readonly after: (nowMs: number) => void; readonly then: (nowMs: number) => void },
): void {
  const { on } = shift;
  const person = on.technicians.find((t) => t.id === who) ?? on.owner;
  const helper = stage.crew === 2 ? helperFor(on, stage, who, atMs) : null;
  const minutes = realMinutes(shift, stage);
  const parts = on.floor.stretches(who, atMs, helper ? Math.ceil(minutes / 2) : minutes);
  const last = parts.at(-1);
  if (!last) return;
  for (const one of helper ? [who, helper] : [who]) on.floor.hold(one, last.endMs);
  for (const part of parts) {
    const begin = (now: number): void => {
      actAs(on, person, now);
      for (const personId of helper ? [who, helper] : [who])
        on.door.write('bookings.startStage', { stageId: stage.id, personId });
    };
    if (part === parts[0]) begin(atMs);
    else on.events.at(part.startMs, begin);
    on.events.at(part.endMs, (now) => {
      actAs(on, person, now);
      if (part !== last) on.door.write('bookings.pauseStage', { stageId: stage.id });
      else {
        finish(shift, stage.id, stage);
        if (stage.kind === shift.stopAfter) stop(shift, now, then);
        else after(now);
      }
    });
  }
}

/** Who else is there and free from the same moment on, the one planned first; with nobody, one does it alone. */
function helperFor(
  { floor, technicians }: Stage,
  stage: StageView,
  who: PersonId,
  atMs: number,
): PersonId | null {
  const planned = stage.place?.people.map((p) => p.id) ?? [];
  const able = technicians.filter((t) => t.skills.includes(stage.skill)).map((t) => t.id);
  return [...planned, ...able].find((id) => id !== who && floor.startFor(id, atMs) <= atMs) ?? null;
}

/** They need the car back: what was done is what is billed. */
function stop(shift: Shift, nowMs: number, then: (nowMs: number) => void): void {
  const { on, jobId } = shift;
  actAs(on, on.desk, nowMs);
  on.door.write('bookings.stopHalfWay', { jobId, reason: 'needs the car back' });
  then(nowMs);
}

/** What was used is near what was planned, never quite. */
function finish(shift: Shift, stageId: StageId, stage: StageView): void {
  const { door, draw } = shift.on;
  const draws = stage.materials
    .map(({ material, planned }) => ({
      material,
      amount: Math.round(planned * (planned < 20 ? 1 : draw.factor(0.18))),
    }))
    .filter((d) => d.amount > 0);
  door.write('bookings.finishStage', { stageId, draws });
}
