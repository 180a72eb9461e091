import { describe, expect, it } from 'vitest';
import { handsOn, type Worked, type WorkOnCar } from '#core/bays/rules/handsOn.ts';
import type { PersonId, StageId } from '#core/shared/ids.ts';
import type { EpochMin } from '#core/shared/units.ts';
import type { StageState } from '#core/shared/vocabulary.ts';

const NOW = 640 as EpochMin;
const planned = (state: StageState, from: number, to: number, more: Partial<WorkOnCar> = {}): WorkOnCar => ({
  ...{ stageId: 's' as StageId, kind: 'refine', who: 'Noor Farrow', state, late: false, splittable: true },
  ...{ personIds: ['ines' as PersonId], startMin: from as EpochMin, endMin: to as EpochMin },
  dwellEndMin: to as EpochMin,
  ...more,
});
const worked = (person: string, from: number, to: number | null): Worked => ({
  ...{ stageId: 's' as StageId, kind: 'refine', who: 'Noor Farrow', personId: person as PersonId },
  ...{ startMin: from as EpochMin, endMin: to as EpochMin | null },
});
const rows = (pieces: readonly WorkOnCar[], done: readonly Worked[]) =>
  handsOn(pieces, done, NOW).map((h) => [h.personId, h.state, h.startMin, h.endMin]);

describe('who works when', () => {
  it('lies with those who did it, each in their own time, not with who was planned', () => {
    const went = [worked('tomas', 540, 600), worked('sanna', 550, 590), worked('tomas', 610, 620)];
    expect(rows([planned('done', 540, 620)], went)).toEqual([
      ['tomas', 'done', 540, 600],
      ['sanna', 'done', 550, 590],
      ['tomas', 'done', 610, 620],
    ]);
  });

  it('goes on to its expected end with who is at it, and is late where the piece is', () => {
    const went = [worked('ines', 560, 600), worked('tomas', 600, null)];
    const pieces = [planned('inWork', 560, 700, { late: true }), planned('inWork', 1980, 2040)];
    expect(rows(pieces, went)).toEqual([
      ['ines', 'done', 560, 600],
      ['tomas', 'inWork', 600, 700],
      ['ines', 'inWork', 1980, 2040],
    ]);
    expect(handsOn(pieces, went, NOW).map((h) => h.late)).toEqual([false, true, false]);
  });

  it('waits, where it was paused, for those it is planned for', () => {
    expect(rows([planned('paused', 560, 700)], [worked('tomas', 560, 600)])).toEqual([
      ['tomas', 'done', 560, 600],
      ['ines', 'paused', 640, 700],
    ]);
  });

  it('lies as planned where nobody began, and with nobody where nobody was needed', () => {
    expect(rows([planned('planned', 700, 760)], [])).toEqual([['ines', 'planned', 700, 760]]);
    expect(rows([planned('inWork', 600, 600), planned('done', 500, 560)], [])).toEqual([]);
  });

  it('has nothing to show for hours that have passed where nobody began, as of a car that did not come', () => {
    expect(rows([planned('planned', 600, 700), planned('planned', 540, 600)], [])).toEqual([
      ['ines', 'planned', 640, 700],
    ]);
  });

  it('is drawn of a car too that is not on the board', () => {
    expect(rows([], [worked('tomas', 560, 600), worked('sanna', 600, null)])).toEqual([
      ['tomas', 'done', 560, 600],
      ['sanna', 'inWork', 600, 640],
    ]);
  });
});
