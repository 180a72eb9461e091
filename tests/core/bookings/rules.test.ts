import { describe, expect, it } from 'vitest';
import { shareDone } from '#core/bookings/rules/halfWay.ts';
import { allowedIn, stateAfter } from '#core/bookings/rules/jobStates.ts';
import { isReady, runsNext } from '#core/bookings/rules/ready.ts';
import { howTo } from '#core/bookings/rules/stageHow.ts';
import { mayTestSpot, type OrderedStage, orderBreaches } from '#core/bookings/rules/stageOrder.ts';
import { attendedMs, cureMissingMin, recordedClashes, typedClash } from '#core/bookings/rules/workTime.ts';
import { DEFAULT_STEPS } from '#core/shared/machineStep.ts';
import type { StageKind } from '#core/shared/vocabulary.ts';

const stage = (
  kind: OrderedStage['kind'],
  state: OrderedStage['state'],
  panels: OrderedStage['panels'] = ['bo', 'ro'],
  panelsDone: OrderedStage['panelsDone'] = [],
): OrderedStage => ({ kind, state, panels, panelsDone });
const H = 3_600_000;
const stretch = (id: number, personId: string, startH: number, endH: number | null) => ({
  id,
  stageId: `s${id}`,
  personId,
  startMs: startH * H,
  endMs: endH === null ? null : endH * H,
});

describe('job states', () => {
  it('walks from the first call to the collected car', () => {
    const way = ['quote', 'book', 'arrive', 'work', 'ready', 'handOver'] as const;
    let state: Parameters<typeof stateAfter>[0] = 'enquiry';
    for (const action of way) state = stateAfter(state, action) ?? 'cancelled';
    expect(state).toBe('collected');
  });
  it('allows nothing but a redo once the car is collected, and nothing once cancelled', () => {
    expect(allowedIn('collected')).toEqual(['redo']);
    expect(allowedIn('cancelled')).toEqual([]);
  });
  it('lets a no-show be booked again and refuses to cancel work that has begun', () => {
    expect(stateAfter('noShow', 'book')).toBe('booked');
    expect(stateAfter('inWork', 'cancel')).toBeNull();
  });
});

describe('order of stages (common practice, no source)', () => {
  it('refuses a machine on panels that are not decontaminated and clayed, naming them', () => {
    const stages = [stage('decontaminate', 'done'), stage('clay', 'inWork', ['bo', 'ro'], ['bo'])];
    expect(orderBreaches('cut', ['bo', 'ro'], stages)).toEqual([
      { rule: 'clayBeforeMachine', panels: ['ro'] },
    ]);
  });
  it('wants the planned cut before refining, but only on panels that are cut at all', () => {
    const ready = [stage('decontaminate', 'done'), stage('clay', 'done')];
    expect(orderBreaches('refine', ['bo', 'ro'], [...ready, stage('cut', 'planned', ['bo'])])).toEqual([
      { rule: 'cutBeforeRefine', panels: ['bo'] },
    ]);
    expect(orderBreaches('refine', ['bo'], [...ready, stage('cut', 'dropped', ['bo'])])).toEqual([]);
  });
  it('wants what is wet sanded sanded before it is cut or refined: the marks come out after, not before', () => {
    const ready = [stage('decontaminate', 'done'), stage('clay', 'done'), stage('sand', 'planned', ['bo'])];
    const breach = [{ rule: 'sandBeforeCut', panels: ['bo'] }];
    expect(orderBreaches('cut', ['bo', 'ro'], ready)).toEqual(breach);
    expect(orderBreaches('refine', ['bo', 'ro'], ready)).toEqual(breach);
    expect(orderBreaches('cut', ['ro'], ready)).toEqual([]);
    expect(orderBreaches('sand', ['bo'], ready)).toEqual([]);
  });
  it('wants the wash before anything rubs, the iron off before clay, and machine work before it is sealed in', () => {
    const all = ['wash', 'decontaminate', 'clay', 'cut', 'protect'] as const;
    const planned = all.map((kind) => stage(kind, 'planned'));
    const rulesOf = (kind: StageKind): readonly string[] =>
      orderBreaches(kind, ['bo'], planned).map((b) => b.rule);
    expect(rulesOf('wash')).toEqual([]);
    expect(rulesOf('decontaminate')).toEqual([]);
    expect(rulesOf('clay')).toEqual(['washBeforeTouch', 'decontaminateBeforeClay']);
    expect(rulesOf('cut')).toEqual(['decontaminateBeforeMachine', 'clayBeforeMachine', 'washBeforeTouch']);
    expect(rulesOf('protect')).toEqual(['machineBeforeProtect']);
    expect(rulesOf('finalCheck')).toEqual(['workBeforeCheck']);
    const ends = [stage('panelWipe', 'planned'), stage('cure', 'planned'), stage('inspection', 'planned')];
    expect(orderBreaches('protect', ['bo'], ends)).toEqual([{ rule: 'wipeBeforeProtect', panels: ['bo'] }]);
    expect(orderBreaches('finalCheck', ['bo'], [stage('cure', 'planned')])).toHaveLength(1);
    expect(
      orderBreaches('finalCheck', ['bo'], [stage('cure', 'dropped'), stage('inspection', 'planned')]),
    ).toEqual([]);
    expect(orderBreaches('protect', ['bo'], [stage('cut', 'inWork', ['bo', 'ro'], ['bo'])])).toEqual([]);
  });
  it('leaves stages before which nothing is planned alone', () => {
    expect(orderBreaches('protect', ['bo'], [])).toEqual([]);
    expect(orderBreaches('clay', ['bo'], [stage('wash', 'dropped'), stage('decontaminate', 'done')])).toEqual(
      [],
    );
  });
  it('allows a test spot on a clayed panel while the rest of the car waits', () => {
    const stages = [stage('clay', 'inWork', ['bo', 'ro'], ['bo'])];
    expect(mayTestSpot('bo', stages)).toBe(true);
    expect(mayTestSpot('ro', stages)).toBe(false);
  });
});

describe('time worked', () => {
  it('adds two people on one stage as two people’s labour and a running stretch up to now', () => {
    expect(attendedMs([stretch(1, 'a', 8, 9), stretch(2, 'b', 8, null)], 10 * H)).toBe(3 * H);
  });
  it('finds the overlap of a typed stretch, not a touching end or another person', () => {
    const others = [stretch(1, 'a', 8, 10), stretch(2, 'b', 9, 12)];
    expect(typedClash({ personId: 'a', startMs: 9 * H, endMs: 11 * H }, others, 20 * H)?.id).toBe(1);
    expect(typedClash({ personId: 'a', startMs: 10 * H, endMs: 11 * H }, others, 20 * H)).toBeNull();
  });
  it('reports recorded overlaps of one person once', () => {
    const all = [stretch(1, 'a', 8, null), stretch(2, 'a', 9, 10), stretch(3, 'b', 9, 10)];
    expect(recordedClashes(all, 12 * H).map((c) => [c.first.id, c.second.id])).toEqual([[1, 2]]);
  });
  it('says how much of a cure was missing, rounded up to minutes', () => {
    expect(cureMissingMin(0, 720, 11 * H + 1)).toBe(60);
    expect(cureMissingMin(0, 720, 12 * H)).toBe(0);
  });
});

describe('a job stopped half way', () => {
  const half = {
    state: 'inWork',
    panelCount: 4,
    panelsDone: 0,
    attendedMs: 0,
    p50Min: 60,
    namedPpm: null,
  } as const;
  it('takes the share somebody names, else the whole, panels, or time, and never more than all', () => {
    expect(shareDone({ ...half, namedPpm: 250_000 })).toEqual({ sharePpm: 250_000, basis: 'named' });
    expect(shareDone({ ...half, state: 'done' })).toEqual({ sharePpm: 1_000_000, basis: 'whole' });
    expect(shareDone({ ...half, panelsDone: 1 })).toEqual({ sharePpm: 250_000, basis: 'panels' });
    expect(shareDone({ ...half, attendedMs: 20 * 60_000 })).toEqual({ sharePpm: 333_333, basis: 'time' });
    expect(shareDone({ ...half, attendedMs: 9 * H }).sharePpm).toBe(1_000_000);
    expect(shareDone({ ...half, state: 'planned' })).toEqual({ sharePpm: 0, basis: 'nothing' });
  });
});

describe('ready', () => {
  it('comes with the last stage before handing over, not with a mere inspection', () => {
    const only = [{ kind: 'inspection', state: 'done' }] as const;
    expect(isReady(only, 'correction')).toBe(false);
    expect(isReady(only, 'inspectionVisit')).toBe(true);
    expect(
      isReady(
        [
          { kind: 'wash', state: 'done' },
          { kind: 'handover', state: 'planned' },
        ],
        'washOnly',
      ),
    ).toBe(true);
  });
  it('lets only a cure that comes next run by itself', () => {
    const cure = { kind: 'cure', state: 'planned', seq: 2, crew: 0 } as const;
    const wipe = { kind: 'panelWipe', state: 'planned', seq: 1, crew: 1 } as const;
    expect(runsNext([cure])).toBe(cure);
    expect(runsNext([wipe, cure])).toBeNull();
  });
});

describe('how a stage is done (common practice, no source)', () => {
  const way = { sectionLengthMm: 500, sectionWidthMm: 400, cutSpeedMmS: 50, refineSpeedMmS: 60 };
  const steps = Object.values(DEFAULT_STEPS);

  it('spreads at the lowest speed, cuts with a rotary at about 1,400 turns, and warns of the kick', () => {
    for (const pad of ['cuttingPad', 'woolPad'] as const) {
      const how = howTo('cut', [pad, 'heavyCutCompound'], steps, way);
      expect(how).toMatchObject({
        machine: 'rotary',
        pad,
        spread: 'lowestSpeed',
        liquid: 'heavyCutCompound',
      });
      expect(how.rpm).toBeGreaterThanOrEqual(1300);
      expect(how.rpm).toBeLessThanOrEqual(1500);
      expect(how.cautions).toContain('rotaryKick');
      expect(how.cautions).toContain('thinEdges');
    }
  });

  it('says nothing of a rotary where the step is done with another machine, and takes the speed the shop set', () => {
    const slow = steps.map((s) => (s.role === 'finish' ? { ...s, speedRpm: 3000, padDiameterMm: 75 } : s));
    const how = howTo('refine', ['finishingPad', 'finishingPolish'], slow, way);
    expect(how).toMatchObject({ machine: 'orbital', spread: 'none', rpm: 3000, padMm: 75 });
    expect(how.section).toEqual({ alongMm: 500, acrossMm: 400, armMmS: 60 });
    expect(how.cautions).not.toContain('rotaryKick');
    expect(howTo('cut', ['microfibrePad', 'mediumCompound'], steps, way).machine).toBe('forced');
  });

  it('names the step it is done with, none where no step of the shop is', () => {
    const roleOf = (kind: 'cut' | 'refine' | 'wash', ...materials: Parameters<typeof howTo>[1]) =>
      howTo(kind, materials, steps, way).role;
    expect(roleOf('refine', 'finishingPad', 'finishingPolish')).toBe('finish');
    expect(roleOf('refine', 'polishingPad', 'mediumCompound')).toBe('oneStep');
    expect(roleOf('cut', 'microfibrePad', 'mediumCompound')).toBe('mediumCut');
    expect(roleOf('cut', 'cuttingPad', 'heavyCutCompound')).toBe('heavyCut');
    expect(roleOf('cut', 'woolPad')).toBe(null);
    expect(roleOf('wash', 'shampoo')).toBe(null);
  });
});
