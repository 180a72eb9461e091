import { expect } from 'vitest';
import type { Run } from '../run.ts';
import { madeId } from '../work.ts';

const STATES = `SELECT l.state, sum(l.pieces) AS pieces FROM pad_level l JOIN pad_batch b ON b.id = l.batch_id
  WHERE b.item_id = ? AND l.pieces > 0 GROUP BY l.state ORDER BY l.state`;

/** Pads that cut are dirty; one is worn out, the others are washed and clean again. */
export async function pads(run: Run): Promise<void> {
  const item = madeId<string>(run, 'cutting pad');
  const state = (): Record<string, number> =>
    Object.fromEntries(run.rows(STATES, item).map((r) => [String(r['state']), Number(r['pieces'])]));
  const dirty = state()['dirty'] ?? 0;
  expect(dirty).toBeGreaterThan(1);
  expect(state()).toEqual({ clean: 6 - dirty, dirty });
  await run.open('/stock');
  await run.page.getByRole('img', { name: `${6 - dirty} clean, ${dirty} dirty, 0 in the wash` }).waitFor();
  const round = run.page.getByRole('region', { name: 'Pads and towels' });
  await run.press('Wash or retire Foam pad 150 mm', round);
  await run.press('Retire a dirty one', round);
  await run.page.getByRole('img', { name: /1 retired$/ }).waitFor();
  await run.press(`Wash ${dirty - 1} dirty`, round);
  await run.page.getByRole('img', { name: `0 dirty, ${dirty - 1} in the wash, 1 retired` }).waitFor();
  expect(state()).toEqual({ clean: 6 - dirty, washing: dirty - 1, retired: 1 });
  await run.shot('17-pads');
  await run.press(`Take ${dirty - 1} out of the wash, clean`, round);
  await run.page.getByRole('img', { name: '5 clean, 0 dirty, 0 in the wash, 1 retired' }).waitFor();
  expect(state()).toEqual({ clean: 5, retired: 1 });
  // A worn piece leaves the ledger too.
  const ledger = 'SELECT qty FROM stock_movement WHERE item_id = ? AND reason = ?';
  expect(run.row(ledger, item, 'retire')).toEqual({ qty: -1 });
}
