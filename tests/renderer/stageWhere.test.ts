import { expect, it } from 'vitest';
import { PLAIN_MANNER } from '#core/shared/text/manner.ts';
import type { StageView } from '#core/shared/views/bookings.ts';
import { where } from '../../renderer/features/jobs/stageColumns.tsx';

const AT = Date.parse('2026-11-25T09:10:00Z');
const PLACE = { bay: 'Bay 2', startMin: AT / 60_000, people: [{ id: 'a', name: 'Wren Tarn' }] };
const stage = (more: object) =>
  ({ state: 'planned', startedMs: null, work: [], place: PLACE, ...more }) as unknown as StageView;
const said = (more: object): string =>
  where(stage(more), PLAIN_MANNER).replace(/^(Bay 2, )?.*?(\d\d:\d\d)/, '$1$2');

it('says of a stage when it is planned, and once it was begun when that was, and who really did it', () => {
  expect(said({})).toBe('Bay 2, 09:10, Wren Tarn');
  const startedMs = AT + 35 * 60_000;
  const work = [{ person: { id: 'b', name: 'Ines Brisk' } }];
  expect(said({ state: 'inWork', startedMs, work })).toBe('Bay 2, 09:45, Ines Brisk, Wren Tarn');
  expect(said({ state: 'done', startedMs, work })).toBe('Bay 2, 09:45, Ines Brisk');
  expect(said({ state: 'done', startedMs, work, place: null })).toBe('09:45, Ines Brisk');
});
