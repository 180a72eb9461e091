import { describe, expect, it } from 'vitest';
import { mergeStages, type PresentStage } from '#core/bookings/rules/stageMerge.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import { planned } from '#tests/helpers/bookedJob.ts';

const there = (
  id: string,
  kind: PresentStage<string>['kind'],
  state: PresentStage<string>['state'],
  panelsDone: readonly PanelId[] = [],
): PresentStage<string> => ({ id, kind, state, begun: state !== 'planned', panelsDone });

describe('a new plan laid over the stages that are there', () => {
  it('gives a stage in work the new figures, since the board and the promise rest on them', () => {
    const merged = mergeStages([there('w', 'wash', 'done'), there('c', 'cut', 'paused')], [planned('cut')]);
    expect(merged).toEqual([
      { do: 'keep', id: 'w' },
      { do: 'refigure', id: 'c', plan: planned('cut') },
    ]);
  });

  it('leaves a stage that is done as it was planned: it is compared with what was promised then', () => {
    expect(mergeStages([there('c', 'cut', 'done')], [planned('cut')])).toEqual([{ do: 'keep', id: 'c' }]);
  });

  it('keeps a panel that is ticked off in the stage although the new plan leaves it out', () => {
    const [stage] = mergeStages([there('c', 'cut', 'inWork', ['lfd', 'ro'])], [planned('cut', ['bo', 'ro'])]);
    expect(stage).toMatchObject({ do: 'refigure', plan: { panels: ['bo', 'ro', 'lfd'] } });
  });

  it('leaves a stage in work alone when its kind is no longer planned', () => {
    expect(mergeStages([there('c', 'cut', 'inWork')], [planned('wash')])).toEqual([
      { do: 'keep', id: 'c' },
      { do: 'add', plan: planned('wash') },
    ]);
  });

  it('plans work anew beside a stage that was dropped half way', () => {
    expect(mergeStages([there('c', 'cut', 'dropped')], [planned('cut')])).toEqual([
      { do: 'keep', id: 'c' },
      { do: 'add', plan: planned('cut') },
    ]);
  });
});
