import { expect } from 'vitest';
import type { Run } from '../run.ts';
import { holdToFinish, madeId, minutesLater, stageNow, startStage, workStage, written } from '../work.ts';

type NewItem = {
  readonly name: string;
  readonly material: string;
  readonly pack: string;
  readonly shelf: string;
  readonly cost: string;
  readonly round?: { readonly uses: string };
};
const ITEMS: readonly NewItem[] = [
  { name: 'Heavy cut, grey', material: 'heavy-cut compound', pack: '1000', shelf: '20', cost: '1.20' },
  {
    name: 'Foam pad 150 mm',
    material: 'cutting pad',
    pack: '2',
    shelf: '6',
    cost: '48',
    round: { uses: '20' },
  },
  { name: 'Sealant', material: 'sealant', pack: '500', shelf: '110', cost: '7.70' },
];

/** What a stage used is proposed, corrected by thumb, and booked with its end, even beyond the book. */
export async function draws(run: Run): Promise<void> {
  for (const item of ITEMS) await writeDown(run, item);
  expect(run.rows('SELECT qty FROM stock_level ORDER BY qty').map((r) => r['qty'])).toEqual([
    6, 20_000, 110_000,
  ]);
  await run.signIn('Wren Tarn');
  await run.open(`/jobs/${madeId(run, 'job')}/card`);
  await workStage(run, /^mask/, 14);
  await cutWithCorrection(run);
  await countAsked(run);
}

async function writeDown(run: Run, item: NewItem): Promise<void> {
  await run.open('/stock');
  await run.page.getByRole('link', { name: 'New item' }).first().click();
  await run.fill(/^Name$/, item.name);
  await run.choose(/^Used in stages as/, item.material);
  await run.fill('A pack holds', item.pack);
  await run.fill('On the shelf now', item.shelf);
  await run.fill('What that cost in all', written(run, Number(item.cost), 2));
  if (item.round) await run.fill('Uses a piece lasts', item.round.uses);
  if (item.name === 'Sealant') await run.shot('16-newItem');
  await run.press('Write it down');
  await run.page.getByRole('heading', { name: item.name }).first().waitFor();
  const [row] = run.rows('SELECT id FROM stock_item WHERE name = ?', item.name);
  run.made.set(item.material, String(row?.['id']));
}

/** The plan proposes pads and compound; one more pad was used, and more compound than the book has. */
async function cutWithCorrection(run: Run): Promise<void> {
  await startStage(run, /^cut/);
  const stage = await stageNow(run, 'cut');
  await minutesLater(run, stage.p50Min);
  await holdToFinish(run);
  const planned = (material: string): number =>
    stage.materials.find((m) => m.material === material)?.planned ?? 0;
  const compound = planned('heavyCutCompound');
  const pads = planned('cuttingPad');
  await run.see('Foam pad 150 mm');
  await run.page.getByRole('button', { name: 'Foam pad 150 mm +' }).click();
  await run.shot('16-draws');
  await run.press('Finish the stage');
  await run.see(/Heavy cut, grey: .+ more used than the book had\. A count was opened\./);
  await run.shot('16-counted');
  const drawn = 'SELECT -qty AS used FROM stock_movement WHERE reason = ? AND item_id = ? AND stage_id = ?';
  expect(compound).toBeGreaterThan(20_000);
  expect(run.row(drawn, 'draw', madeId(run, 'heavy-cut compound'), stage.id)).toEqual({ used: compound });
  const used = 'SELECT sum(pieces) AS pieces FROM pad_event WHERE stage_id = ? AND used = 1';
  expect(run.row(used, stage.id)).toEqual({ pieces: pads + 1 });
}

/** The draw is kept as it was; the shelf is counted when somebody passes. */
async function countAsked(run: Run): Promise<void> {
  await run.signIn('Ines Örtel', '4711');
  await run.open('/stock');
  const counts = run.page.getByRole('region', { name: 'To count' });
  await run.see('Heavy cut, grey', counts);
  await run.shot('16-stock');
  await run.press('Count', counts);
  await run.fill('On the shelf now', '960', counts);
  await run.press('Save the count', counts);
  await counts.waitFor({ state: 'detached' });
  const level = 'SELECT qty FROM stock_level WHERE item_id = ?';
  expect(run.row(level, madeId(run, 'heavy-cut compound'))).toEqual({ qty: 960_000 });
  expect(run.row('SELECT why, counted_qty FROM stock_count')).toEqual({
    why: 'negative',
    counted_qty: 960_000,
  });
}
