import { describe, expect, test } from 'vitest';
import type { JobPlan, Place } from '#core/bays/rules/model.ts';
import { occupancyOf } from '#core/bays/rules/occupancy.ts';
import { placeJob } from '#core/bays/rules/offers.ts';
import { faultsOfBoard, faultsOfJob } from '#core/bays/rules/validate.ts';
import type { BayId, JobId } from '#core/shared/ids.ts';
import { seeded } from '#core/shared/random.ts';
import type { BayKind, StageKind } from '#core/shared/vocabulary.ts';
import { board, busy, job, open, person, place, plansOf, stage, standing } from './boards.ts';
import { bruteForce } from './oracle.ts';

type B = ReturnType<typeof board>;
type J = ReturnType<typeof job>;

function offer(b: B, j: J, holdUntilMin = 0) {
  const occupancy = occupancyOf(b, new Set([j.id]), b.nowMin);
  return placeJob(b, occupancy, j, { people: null, holdUntilMin, stages: j.stages });
}

describe('exact earliest placement', () => {
  test('one label per gap, not per place: a short early gap must not hide the later one that fits', () => {
    // Bay free 0–30 and 40–∞. The car can arrive at 0 but 60 min of work fit only from 40: ready at 100 by hand.
    const b = board({
      places: [place('bay', 'correction')],
      technicians: [person('a')],
      plans: plansOf([standing('x', 'bay', 30, 40)]),
    });
    expect(offer(b, job('j', [stage('s', 60)]))?.readyMin).toBe(100);
  });

  test('a slow technician who is free first loses to a fast one who ends first', () => {
    // Slow: 0 + 100/0.5 = 200. Fast is free from 50: 50 + 100/2 = 100.
    const b = board({
      places: [place('bay', 'correction')],
      technicians: [person('slow', undefined, 500_000), person('fast', undefined, 2_000_000)],
      plans: plansOf([busy('x', 'fast', 0, 50)]),
    });
    const found = offer(b, job('j', [stage('s', 100)]));
    expect(found?.readyMin).toBe(100);
    expect(found?.plan.pieces[0]?.personIds).toEqual(['fast']);
  });

  test('a technician whose shift ends sooner loses although both could start at once', () => {
    // a works 0–30 and from 100: 60 min end at 130. b works through: 60.
    const b = board({
      places: [place('bay', 'correction')],
      technicians: [person('a', open([0, 30], [100, 400])), person('b', open([0, 400]))],
    });
    expect(offer(b, job('j', [stage('s', 60)]))?.readyMin).toBe(60);
  });

  test('a car leaves for the next bay only in opening hours, however long it waited', () => {
    // Opening 0–50 and 100–300; the wash (dwell runs on) ends at 60, so it drives off at 100 and is cut 100–130.
    const b = board({
      places: [place('w', 'wash'), place('bay', 'correction')],
      technicians: [person('a')],
      open: open([0, 50], [100, 300]),
    });
    const j = job('j', [stage('s1', 40, { bayKinds: ['wash'], dwellMin: 20 }), stage('s2', 30)]);
    const found = offer(b, j);
    expect(found?.readyMin).toBe(130);
    expect(found?.plan.stays).toEqual([
      { bayId: 'w', arriveMin: 0, leaveMin: 100 },
      { bayId: 'bay', arriveMin: 100, leaveMin: 130 },
    ]);
  });

  test('a car that arrives during opening may wait in its bay through the night for its technician', () => {
    // Next bay is free 0–∞ but its technician works from 200; departure at 40 lies in opening, work is 200–230.
    const b = board({
      places: [place('w', 'wash'), place('bay', 'correction')],
      technicians: [
        person('a', undefined, 1_000_000, ['wash']),
        person('b', open([200, 400]), 1_000_000, ['correction']),
      ],
      open: open([0, 50], [300, 400]),
    });
    const j = job('j', [stage('s1', 40, { bayKinds: ['wash'], skill: 'wash' }), stage('s2', 30)]);
    expect(offer(b, j)?.readyMin).toBe(230);
  });

  test('a car whose bay is needed goes by way of the yard', () => {
    // w must be left by 30, the correction bay is free from 60: only the yard bridges 30–60. Ready 60 + 20.
    const places = [place('w', 'wash'), place('bay', 'correction'), place('yard', 'yard', 1)];
    const plans = plansOf([standing('x', 'w', 30, 500), standing('y', 'bay', 0, 60)]);
    const b = board({ places, technicians: [person('a')], plans });
    const j = job('j', [stage('s1', 30, { bayKinds: ['wash'] }), stage('s2', 20)]);
    expect(offer(b, j)?.readyMin).toBe(80);
    const full = board({
      places,
      technicians: [person('a')],
      plans: plansOf([...plans.values(), standing('z', 'yard', 40, 50)]),
    });
    // With the yard taken 40–50 the wash has to wait until its bay is free again at 500.
    expect(offer(full, j)?.readyMin).toBe(550);
  });

  test('a long cure that runs through the night needs nobody and holds the bay', () => {
    // protect 30 min 0–30, cure 500 unattended to 530 although the shop is open 0–100 only; handed over from 600.
    const b = board({
      places: [place('p', 'protection')],
      technicians: [person('a', open([0, 100], [600, 700]))],
      open: open([0, 100], [600, 700]),
      desk: open([0, 100], [600, 700]),
      slots: [0, 600],
    });
    const found = offer(b, job('j', [stage('s', 30, { bayKinds: ['protection'], dwellMin: 500 })]));
    expect([found?.readyMin, found?.pickUpMin]).toEqual([530, 600]);
  });

  test('a car comes as late as its first stage allows instead of standing in the yard', () => {
    // The bay is free from 100 and cars arrive every 30 min: straight into the bay at 120, not in the yard at 0.
    const b = board({
      places: [place('bay', 'correction'), place('yard', 'yard', 3)],
      technicians: [person('a', open([130, 400]))],
      plans: plansOf([standing('x', 'bay', 0, 100)]),
      slots: [0, 30, 60, 90, 120, 150, 180, 210],
    });
    const found = offer(b, job('j', [stage('s', 50)]));
    expect(found?.plan.stays).toEqual([{ bayId: 'bay', arriveMin: 120, leaveMin: 180 }]);
  });

  test('work that may not be split waits for a stretch that holds it', () => {
    // Open 0–50 and 100–200: 60 minutes in one go start at 100.
    const b = board({
      places: [place('bay', 'correction')],
      technicians: [person('a', open([0, 50], [100, 200]))],
    });
    expect(offer(b, job('j', [stage('s', 60, { splittable: false })]))?.readyMin).toBe(160);
    expect(offer(b, job('j', [stage('s', 60)]))?.readyMin).toBe(110);
  });

  test('a crew of two works when both are there and free', () => {
    // a free from 20, b there from 40: both from 40, 30 min → 70.
    const b = board({
      places: [place('bay', 'correction')],
      technicians: [person('a'), person('b', open([40, 400]))],
      plans: plansOf([busy('x', 'a', 0, 20)]),
    });
    expect(offer(b, job('j', [stage('s', 30, { crew: 2 })]))?.readyMin).toBe(70);
  });

  // Two jobs that cross, an hour in each bay: 2 h where a waiting car blocks nothing, 4 h where it does (by hand: neither
  // can leave first, so the second begins when the first is through).
  test.each([
    { yard: 0, hours: 4 },
    { yard: 1, hours: 2 },
  ])('two crossing jobs take $hours hours with $yard place(s) in the yard', ({ yard, hours }) => {
    const there = place('a', 'wash');
    const yards = yard > 0 ? [place('yard', 'yard', yard)] : [];
    const places = [there, place('b', 'correction'), ...yards];
    const empty = board({ places, technicians: [person('p'), person('q')] });
    const crosses = (id: string, kinds: readonly BayKind[]): J =>
      job(
        id,
        kinds.map((kind, i) => stage(`${id}${i}`, 60, { bayKinds: [kind] })),
      );
    const [one, two] = [crosses('x', ['wash', 'correction']), crosses('y', ['correction', 'wash'])];
    const first = offer(empty, one)?.plan as JobPlan;
    const b: B = { ...empty, plans: plansOf([first]), jobs: new Map([[one.id, one]]) };
    const found = offer(b, two);
    expect(found?.readyMin).toBe(hours * 60);
    expect(bruteForce({ ...b, horizonMin: 300 }, two)?.readyMin).toBe(hours * 60);
    const both = {
      ...b,
      jobs: new Map(b.jobs).set(two.id, two),
      plans: plansOf([first, found?.plan as JobPlan]),
    };
    expect(faultsOfBoard(both)).toEqual([]);
  });

  test('a stage whose kind of bay does not exist has no placement', () => {
    const b = board({ places: [place('w', 'wash')], technicians: [person('a')] });
    expect(offer(b, job('j', [stage('s', 30)]))).toBeNull();
  });
});

type Random = { readonly b: B; readonly j: J };

const ROUNDS = Number(process.env['RAKELIGHT_BOARDS'] ?? 500);
/** Of each further kind of board. */
const FEWER = Math.ceil(ROUNDS / 3);

describe('placement against brute force', () => {
  test(`equals brute force on ${ROUNDS} random boards`, () => {
    for (let seed = 1; seed <= ROUNDS; seed += 1) {
      const { b, j, hold } = randomBoard(seed);
      const found = offer(b, j, hold);
      const got = found && { pickUpMin: found.pickUpMin, readyMin: found.readyMin };
      expect(got, `board ${seed}`).toEqual(bruteForce(b, j, hold));
    }
  });

  const kinds = {
    'stages that keep their distance': (seed: number, at: Random) => ({ b: at.b, j: withGaps(seed, at.j) }),
    'dust beside fresh coatings': withDust,
    'others that are driven over': withMoved,
    'dust and distances': (seed: number, at: Random) => {
      const { b, j } = withDust(seed, at);
      return { b, j: withGaps(seed, j) };
    },
  };
  test.each(Object.entries(kinds))(`equals brute force on ${FEWER} random boards with %s`, (_, change) => {
    let placed = 0;
    for (let seed = 1; seed <= FEWER; seed += 1) {
      const plain = randomBoard(seed);
      const { b, j } = change(seed, plain);
      const found = offer(b, j, plain.hold);
      const got = found && { pickUpMin: found.pickUpMin, readyMin: found.readyMin };
      expect(got, `board ${seed}`).toEqual(bruteForce(b, j, plain.hold));
      if (found) placed += 1;
      const all = { ...b, jobs: new Map(b.jobs).set(j.id, j) };
      expect(found ? faultsOfJob(all, j, found.plan).map((f) => f.rule) : [], `board ${seed}`).toEqual([]);
    }
    expect(placed).toBeGreaterThan(FEWER / 4);
  });
});

/** Each stage of a job may have to wait for the one before, or to follow it in time. */
function withGaps(seed: number, j: J): J {
  const random = seeded(seed + 77);
  const int = (high: number): number => Math.floor(random() * (high + 1));
  return {
    ...j,
    stages: j.stages.map((s) => {
      const leastGapMin = random() < 0.5 ? int(6) : 0;
      return { ...s, leastGapMin, mostGapMin: random() < 0.6 ? leastGapMin + int(6) : null };
    }),
  };
}

/** Others stand in one place after the other, driven over in the minute at which one more of them leaves. */
function withMoved(seed: number, { b, j }: { b: B; j: J }): { b: B; j: J } {
  const random = seeded(seed + 55);
  const int = (high: number): number => Math.floor(random() * (high + 1));
  const [one, two] = b.places.filter((p) => p.kind !== 'yard').toSorted(() => random() - 0.5);
  const places = random() < 0.7 ? b.places.filter((p) => p.kind !== 'yard') : b.places;
  const here = j.start.kind === 'here' ? 12 : 0;
  if (!one || !two) return { b: { ...b, places, plans: new Map() }, j };
  const at = here + 4 + int(20);
  const moved: JobPlan = {
    jobId: 'moved' as JobId,
    stays: [
      { bayId: two.id, arriveMin: Math.max(here, at - 1 - int(8)), leaveMin: at },
      { bayId: one.id, arriveMin: at, leaveMin: at + 1 + int(8) },
    ],
    pieces: [],
  };
  return { b: { ...b, places, plans: plansOf([moved]) }, j };
}

/** Some bays lie beside each other, some work cuts, some coats: of the job that is placed, and of those that stand there. */
function withDust(seed: number, { b, j }: { b: B; j: J }): { b: B; j: J } {
  const random = seeded(seed + 99);
  const pick = <T>(values: readonly T[]): T => values[Math.floor(random() * values.length)] as T;
  const kind = (): StageKind => pick(['cut', 'protect', 'cure', 'refine']);
  const bays = b.places.filter((p) => p.kind !== 'yard').map((p) => p.id);
  const pairs = bays.flatMap((a, i) => bays.slice(i + 1).map((c) => [a, c] as const));
  const near = pairs.filter(() => random() < 0.7);
  const places = b.places.map((p) => ({
    ...p,
    dustWith: near.flatMap(([a, c]) => (a === p.id ? [c] : c === p.id ? [a] : [])),
  }));
  const plans = [...b.plans.values()].map((p) => ({
    ...p,
    pieces: p.pieces.map((x) => ({
      ...x,
      bayId: pick(bays),
      dwellEndMin: x.endMin + Math.floor(random() * 6),
    })),
  }));
  const others = plans.map((p) =>
    job(
      p.jobId,
      p.pieces.map((x) => stage(x.stageId, 1, { kind: kind() })),
    ),
  );
  return {
    b: { ...b, places, plans: plansOf(plans), jobs: new Map(others.map((o) => [o.id, o])) },
    j: { ...j, stages: j.stages.map((s) => ({ ...s, kind: kind() })) },
  };
}

function randomBoard(seed: number): { b: B; j: J; hold: number } {
  const random = seeded(seed);
  const int = (low: number, high: number): number => low + Math.floor(random() * (high - low + 1));
  const pick = <T>(values: readonly T[]): T => values[int(0, values.length - 1)] as T;
  const horizonMin = 70;
  const spans = (): [number, number][] => {
    const out: [number, number][] = [];
    for (let t = int(0, 6); t < horizonMin; t += int(2, 10)) {
      const end = t + int(4, 16);
      out.push([t, end]);
      t = end;
    }
    return out;
  };
  const kinds: BayKind[] = ['wash', 'correction', 'protection'];
  const places = kinds.slice(0, int(1, 3)).map((k, i) => place(`b${i}`, k, 1, int(0, 1)));
  if (random() < 0.5) places.push(place('b9', 'correction'));
  if (random() < 0.7) places.push(place('yard', 'yard', int(1, 2)));
  const technicians = Array.from({ length: int(1, 3) }, (_, i) =>
    person(`p${i}`, open(...spans()), pick([500_000, 1_000_000, 1_000_000, 2_000_000])),
  );
  const plans: JobPlan[] = [];
  for (let i = int(0, 7); i > 0; i -= 1) {
    const t = int(0, 50);
    if (random() < 0.6) plans.push(standing(`x${i}`, pick(places).id, t, t + int(1, 15)));
    else plans.push(busy(`x${i}`, pick(technicians).id, t, t + int(1, 15)));
  }
  const used = [...new Set(places.filter((p) => p.kind !== 'yard').map((p) => p.kind))];
  const stages = Array.from({ length: int(1, 3) }, (_, i) =>
    stage(`s${i}`, int(1, 8), {
      bayKinds: random() < 0.2 && places.at(-1)?.kind === 'yard' ? [pick(used), 'yard'] : [pick(used)],
      dwellMin: random() < 0.3 ? int(1, 8) : 0,
      crew: pick([0, 1, 1, 1, 1, 2]),
      splittable: random() < 0.7,
    }),
  );
  const step = pick([1, 3, 5]);
  const slots = Array.from({ length: horizonMin + 1 }, (_, i) => i).filter((t) => t % step === 0);
  const dropOffMin = pick(slots.filter((t) => t < 25));
  const kindOfStart = random();
  const start =
    kindOfStart < 0.5
      ? ({ kind: 'free', notBeforeMin: int(0, 10) } as const)
      : kindOfStart < 0.8
        ? ({ kind: 'agreed', dropOffMin } as const)
        : ({ kind: 'here', bayId: emptyAtZero(places, plans), fromMin: 0 } as const);
  const b = board({
    places,
    technicians,
    open: open(...spans()),
    slots,
    horizonMin,
    moveMin: int(0, 2),
    plans: plansOf(plans),
  });
  return { b, j: job('j', stages, { start }), hold: random() < 0.3 ? int(0, 60) : 0 };
}

/** A car that stands somewhere now has that place: the record never puts it where another one is planned first. */
function emptyAtZero(places: readonly Place[], plans: JobPlan[]): BayId {
  const id = places[0]?.id as BayId;
  const rest = plans.filter((p) => !p.stays.some((s) => s.bayId === id && s.arriveMin === 0));
  plans.splice(0, plans.length, ...rest);
  return id;
}
