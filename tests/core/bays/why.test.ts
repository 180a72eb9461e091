import { describe, expect, test } from 'vitest';
import { alwaysOpen } from '#core/bays/rules/calendar.ts';
import { offersFor } from '#core/bays/rules/choices.ts';
import type { Board, JobPlan, JobSpec, Place } from '#core/bays/rules/model.ts';
import { whyNotEarlier } from '#core/bays/rules/why.ts';
import type { BayId, PersonId, StageId } from '#core/shared/ids.ts';
import { board, busy, job, open, person, place, plansOf, stage, standing } from './boards.ts';

const PLAIN = { places: [place('bay', 'correction')], technicians: [person('ann')] };
const wish = { notBeforeMin: 0, technicianId: null, day: null, count: 1, levelPpm: 800_000 };

/** The reason given for the first offer, and its pick-up. */
function asked(b: Board, j: JobSpec) {
  const [first] = offersFor(b, j, wish);
  if (!first) throw new Error('no offer');
  const { kind, names, gainMin } = whyNotEarlier(b, j, first);
  return { why: [kind, names, gainMin], pickUpMin: first.pickUpMin };
}

describe('why not earlier: the named limit, taken away, moves the offer by as much as was said', () => {
  const J = job('j', [stage('s', 60)]);

  test('the one bay of two that another car holds', () => {
    const places = [place('near', 'correction'), place('far', 'correction')];
    const far = standing('y', 'far', 0, 900);
    const b = board({ ...PLAIN, places, plans: plansOf([standing('x', 'near', 0, 300), far]) });
    expect(asked(b, J)).toEqual({ why: ['bays', ['near'], 300], pickUpMin: 360 });
    expect(asked({ ...b, plans: plansOf([far]) }, J).pickUpMin).toBe(60);
  });

  test('the person who is at another car, though the bay is taken for a while too', () => {
    const car = standing('x', 'bay', 0, 50);
    const b = board({ ...PLAIN, plans: plansOf([car, busy('y', 'ann', 0, 400)]) });
    expect(asked(b, J)).toEqual({ why: ['people', ['ann'], 350], pickUpMin: 460 });
    expect(asked({ ...b, plans: plansOf([car]) }, J).pickUpMin).toBe(110);
  });

  test('the yard that is full', () => {
    // The wash bay must be left by 30, the correction bay is free from 60 on: only the yard bridges it.
    const closed = (p: Place, startMin: number, endMin: number): Place => ({
      ...p,
      closed: [{ startMin, endMin }],
    });
    const places = [
      closed(place('w', 'wash'), 30, 500),
      closed(place('bay', 'correction'), 0, 60),
      place('yard', 'yard', 1),
    ];
    const b = board({ ...PLAIN, places, plans: plansOf([standing('z', 'yard', 0, 900)]) });
    const j = job('j', [stage('s1', 30, { bayKinds: ['wash'] }), stage('s2', 20)]);
    expect(asked(b, j)).toEqual({ why: ['yard', [], 470], pickUpMin: 550 });
    expect(asked({ ...b, plans: new Map() }, j).pickUpMin).toBe(80);
  });

  test('a skill that only one has who is not there yet', () => {
    const late = person('ann', open([500, 900]), 1_000_000, ['correction']);
    const ben = person('ben', alwaysOpen(), 1_000_000, ['wash']);
    const b = board({ ...PLAIN, technicians: [late, ben] });
    expect(asked(b, J)).toEqual({ why: ['skill', ['correction'], 500], pickUpMin: 560 });
    const both = { ...ben, skills: ['wash', 'correction'] as const };
    expect(asked({ ...b, technicians: [late, both] }, J).pickUpMin).toBe(60);
  });

  test('the person who was asked for', () => {
    const technicians = [person('ann', open([500, 900])), person('ben')];
    const b = board({ ...PLAIN, technicians });
    const found = offersFor(b, J, { ...wish, technicianId: 'ann' as PersonId, count: 3 });
    const theirs = found.find((c) => c.kind === 'technician');
    if (!theirs) throw new Error('no offer');
    expect(whyNotEarlier(b, J, theirs)).toEqual({ kind: 'asked', names: ['ann'], gainMin: 500 });
    expect(theirs.pickUpMin - (found[0]?.pickUpMin ?? 0)).toBe(500);
  });

  test('the day that was asked for', () => {
    const b = board(PLAIN);
    const day = { startMin: 1000, endMin: 2000 };
    const found = offersFor(b, J, { ...wish, day, count: 3 }).find((c) => c.kind === 'day');
    expect(found && whyNotEarlier(b, J, found).kind).toBe('day');
  });

  test('the hours of the desk, when the car is ready after it closes', () => {
    const desk = open([0, 50], [500, 900]);
    const b = board({ ...PLAIN, desk, slots: [0, 500] });
    expect(asked(b, J)).toEqual({ why: ['deskHours', [], 440], pickUpMin: 500 });
    expect(asked({ ...b, desk: alwaysOpen(), slots: [0, 60, 500] }, J).pickUpMin).toBe(60);
  });

  test('the cure', () => {
    const cured = job('j', [stage('s', 60, { dwellMin: 600 })]);
    const slots = Array.from({ length: 100 }, (_, i) => i * 15);
    expect(asked(board({ ...PLAIN, slots }), cured)).toEqual({ why: ['cure', [], 600], pickUpMin: 660 });
    expect(asked(board({ ...PLAIN, slots }), J).pickUpMin).toBe(60);
  });

  test('the hours in which work is done', () => {
    const hours = open([0, 30], [300, 900]);
    const b = board({ ...PLAIN, technicians: [person('ann', hours)], open: hours });
    expect(asked(b, J)).toEqual({ why: ['openHours', [], 270], pickUpMin: 330 });
    expect(asked(board(PLAIN), J).pickUpMin).toBe(60);
  });

  test('not the hours of the desk inside which the car is ready, but the set times of handing over', () => {
    const desk = open([0, 900]);
    const b = board({ ...PLAIN, desk, slots: [0, 30, 90, 120] });
    expect(asked(b, J)).toEqual({ why: ['slots', [], 30], pickUpMin: 90 });
    expect(asked({ ...b, slots: [0, 60] }, J).pickUpMin).toBe(60);
  });

  test('not the set times either, where hours of work weigh more', () => {
    const hours = open([0, 30], [300, 900]);
    const b = board({ ...PLAIN, technicians: [person('ann', hours)], open: hours, desk: open([0, 900]) });
    const slots = [0, 60, 120, 180, 240, 300, 360];
    expect(asked({ ...b, slots }, J)).toEqual({ why: ['openHours', [], 300], pickUpMin: 360 });
  });

  test('the distance that a stage keeps to the next', () => {
    const stages = [stage('a', 20, { kind: 'wash', leastGapMin: 100 }), stage('b', 40)];
    expect(asked(board(PLAIN), job('j', stages))).toEqual({ why: ['gap', ['wash'], 100], pickUpMin: 160 });
    expect(
      asked(
        board(PLAIN),
        job(
          'j',
          stages.map((s) => ({ ...s, leastGapMin: 0 })),
        ),
      ).pickUpMin,
    ).toBe(60);
  });

  describe('clean air, where two bays share their dust', () => {
    const bays = ['one', 'two'] as BayId[];
    const places = bays.map((id) => ({
      ...place(id, id === 'one' ? 'correction' : 'protection'),
      dustWith: bays.filter((b) => b !== id),
    }));
    const kinds = { cut: 'correction', protect: 'protection' } as const;
    const car = (id: string, kind: keyof typeof kinds, bayId: string, startMin: number, endMin: number) => {
      const spec = job(id, [stage(`${id}s`, endMin - startMin, { kind, bayKinds: [kinds[kind]] })], {
        who: id,
      });
      const piece = { stageId: `${id}s` as StageId, bayId: bayId as BayId, personIds: ['ben' as PersonId] };
      const plan: JobPlan = {
        jobId: spec.id,
        stays: [{ bayId: bayId as BayId, arriveMin: startMin, leaveMin: endMin }],
        pieces: [{ ...piece, startMin, endMin, dwellEndMin: endMin }],
      };
      return { spec, plan };
    };
    const beside = (other: ReturnType<typeof car>): Board =>
      board({
        places,
        technicians: [person('ann'), person('ben')],
        jobs: new Map([[other.spec.id, other.spec]]),
        plans: plansOf([other.plan]),
      });

    test('the coating of another car that cures beside the cut', () => {
      expect(asked(beside(car('x', 'protect', 'two', 0, 400)), J)).toEqual({
        why: ['fresh', ['x'], 400],
        pickUpMin: 460,
      });
    });

    test('the cut of another car beside the coating', () => {
      const coat = job('j', [stage('s', 60, { kind: 'protect', bayKinds: ['protection'] })]);
      expect(asked(beside(car('x', 'cut', 'one', 0, 400)), coat)).toEqual({
        why: ['dust', ['x'], 400],
        pickUpMin: 460,
      });
    });
  });

  test('being sure of it, when the promise waits for that', () => {
    const unsure = job('j', [stage('s', 60, { sigma: 0.5 })], { jobSigma: 0 });
    const { why, pickUpMin } = asked(board(PLAIN), unsure);
    expect(why).toEqual(['sure', [], pickUpMin - 60]);
    expect(pickUpMin).toBeGreaterThan(80);
  });

  test('the work itself, when nothing else stands in its way', () => {
    expect(asked(board(PLAIN), J)).toEqual({ why: ['workItself', [], 0], pickUpMin: 60 });
  });
});
