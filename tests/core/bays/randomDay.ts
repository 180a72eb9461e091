import { type Calendar, calendarOf } from '#core/bays/rules/calendar.ts';
import { type JobFacts, liveJob } from '#core/bays/rules/live.ts';
import type { Board, JobPlan, JobSpec, StageSpec } from '#core/bays/rules/model.ts';
import { occupancyOf } from '#core/bays/rules/occupancy.ts';
import { placeJob } from '#core/bays/rules/offers.ts';
import type { JobId, PersonId } from '#core/shared/ids.ts';
import type { Random } from '#core/shared/random.ts';
import { board, job, person, place, stage } from './boards.ts';

/** A small shop that was planned well on the first morning, and how it stands some hours on. */
const DAYS = 8;
const each = (from: number, to: number): Calendar =>
  calendarOf(Array.from({ length: DAYS }, (_, d) => ({ startMin: d * 1440 + from, endMin: d * 1440 + to })));
const HOURS = each(480, 1020);
const DESK = each(480, 1080);

/** Nine cars laid by a desk that planned well on the first morning. */
export function planned(random: Random): Board {
  const slots = DESK.starts.flatMap((s) => Array.from({ length: 40 }, (_, k) => s + k * 15));
  let b = board({
    places: [place('w', 'wash'), place('c', 'correction', 1, 5), place('yard', 'yard', 2)],
    technicians: [person('ann', HOURS), person('ben', HOURS, 900_000), person('eve', each(600, 900))],
    ...{ open: DESK, desk: DESK, slots, horizonMin: DAYS * 1440, moveMin: 10, nowMin: 480 },
  });
  for (let n = 0; n < 9; n += 1) {
    const stages = stagesOf(n, random);
    const j = job(`j${n}`, stages, { number: n + 1 });
    const found = placeJob(b, occupancyOf(b, new Set(), b.nowMin), j, {
      ...{ people: null, holdUntilMin: 0, stages },
    });
    if (!found) continue;
    const jobs = new Map(b.jobs).set(j.id, { ...j, promiseMin: found.pickUpMin });
    b = { ...b, jobs, plans: new Map(b.plans).set(j.id, found.plan) };
  }
  return b;
}

function stagesOf(n: number, random: Random): readonly StageSpec[] {
  const of = (id: string, min: number, bay: 'wash' | 'correction'): StageSpec =>
    stage(`${id}${n}`, min, {
      bayKinds: random() < 0.3 ? ['wash', 'correction'] : [bay],
      dwellMin: random() < 0.3 ? 90 : 0,
      splittable: random() < 0.7,
    });
  const wash = of('a', 20 + Math.floor(random() * 60), 'wash');
  const cut = of('b', 60 + Math.floor(random() * 200), 'correction');
  return random() < 0.3 ? [wash] : [wash, cut];
}

/** The same shop some hours on: some came, some did not; some work is done, some runs over, somebody may be ill. */
export function later(b: Board, random: Random): Board {
  const ill = random() < 0.3;
  const technicians = b.technicians.map((t) =>
    ill && t.id === ('ben' as PersonId) ? { ...t, hours: each(480, 481) } : t,
  );
  const at: Board = { ...b, technicians, nowMin: 480 + Math.floor(random() * 2200) };
  const jobs = new Map<JobId, JobSpec>();
  const plans = new Map<JobId, JobPlan>();
  const atWork = new Set<string>();
  for (const j of b.jobs.values()) {
    const live = wentOnWith(at, j, atWork, random);
    jobs.set(j.id, live.job);
    plans.set(j.id, live.plan);
  }
  return { ...at, jobs, plans };
}

function wentOnWith(at: Board, j: JobSpec, atWork: Set<string>, random: Random): ReturnType<typeof liveJob> {
  const kept = at.plans.get(j.id) as JobPlan;
  const dropOffMin = kept.stays[0]?.arriveMin ?? 0;
  const came = dropOffMin <= at.nowMin && random() < 0.8;
  let goesOn = came;
  const stages = j.stages.map((s): StageSpec => {
    const own = kept.pieces.filter((p) => p.stageId === s.id);
    const who = own[0]?.personIds[0] ?? '';
    if (!goesOn || (own[0]?.startMin ?? 0) > at.nowMin) return s;
    if (Math.max(...own.map((p) => p.endMin)) <= at.nowMin && random() < 0.7) return { ...s, state: 'done' };
    goesOn = false;
    if (atWork.has(who) || random() < 0.3)
      return random() < 0.5 ? { ...s, state: 'paused', workedMin: 10 } : s;
    atWork.add(who);
    return { ...s, state: 'inWork', workedMin: random() < 0.6 ? s.labourMin + 30 : s.labourMin / 2 };
  });
  const begun = stages.some((s) => s.state !== 'planned');
  const state = stages.every((s) => s.state === 'done')
    ? 'ready'
    : begun
      ? 'inWork'
      : came
        ? 'here'
        : 'booked';
  const { id, number, who, promiseMin: pickUpMin } = j;
  const facts: JobFacts = {
    id,
    number,
    who,
    state,
    dropOffMin,
    pickUpMin,
    lateWeight: 1,
    jobSigma: null,
    goneMin: null,
  };
  return liveJob(at, facts, stages, kept);
}
