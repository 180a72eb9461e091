import { describe, expect, it } from 'vitest';
import type { LocalDay } from '#core/shared/units.ts';
import { bookJob, refusal, shelfShop } from './shelf.ts';

const on = shelfShop();

describe('a stage that is finished', () => {
  it('draws what was planned and corrected, and its pads go dirty', async () => {
    const { stageId, jobId } = bookJob(on.shop, '2026-11-27', { heavyCutCompound: 120_000, cuttingPad: 4 });
    const proposed = await on.shop.read('stock.proposeDraws', { stageId });
    expect(proposed.map((p) => [p.material, p.proposed, p.itemName])).toEqual([
      ['heavyCutCompound', 120_000, 'Heavy-cut compound'],
      ['cuttingPad', 4, 'Cutting pads, 150 mm'],
    ]);
    const done = on.shop.write('stock.drawForStage', {
      stageId,
      draws: [
        { material: 'heavyCutCompound', amount: 155_000 },
        { itemId: on.shelf.pads, amount: 4 },
        { material: 'coating', amount: 10 },
      ],
    });
    expect(done.notKept).toEqual([{ material: 'coating', amount: 10, unit: 'ul' }]);
    // 155 of 620 ml that cost 25.54: 6.385, half away from zero
    expect(done.drawn[0]).toMatchObject({ amount: 155_000, valueMinor: -639, onHandAfter: 465_000 });
    expect((await on.board()).pads[0]).toMatchObject({ clean: 5, dirty: 4 });
    const cost = await on.shop.read('stock.jobCost', { jobId });
    // 4 uses of a pad of 11.00 that lasts 20: 2.20
    expect(cost.lines.map((l) => [l.kind, l.valueMinor])).toEqual([
      ['used', 639],
      ['worn', 220],
    ]);
    expect(cost.totalMinor).toBe(859);
  });
  it('keeps what it used of a material without an item, and Stock names the material until there is one', async () => {
    const { stageId, jobId } = bookJob(on.shop, '2026-11-27', { coating: 30_000, cuttingPad: 2 });
    bookJob(on.shop, '2026-11-30', { coating: 15_000 });
    expect((await on.board()).missing).toEqual([
      {
        material: 'coating',
        unit: 'ul',
        booked: 45_000,
        jobs: 2,
        firstDay: '2026-11-27',
        used: 0,
        kept: false,
      },
    ]);
    on.shop.write('stock.drawForStage', {
      stageId,
      draws: [
        { material: 'coating', amount: 40_000 },
        { material: 'cuttingPad', amount: 3 },
      ],
    });
    const job = await on.shop.read('bookings.job', { jobId });
    expect(job.stages[0]?.materials.map((m) => [m.material, m.planned, m.used, m.noItem])).toEqual([
      ['coating', 30_000, 40_000, 40_000],
      ['cuttingPad', 2, 3, 0],
    ]);
    expect((await on.board()).missing[0]).toMatchObject({ material: 'coating', used: 40_000 });
    for (const change of ['UPDATE draw_without_item SET amount = 1', 'DELETE FROM draw_without_item'])
      expect(() => on.shop.db.raw.exec(change)).toThrow('append-only');
    on.shop.write('stock.addItem', { name: 'Coating', material: 'coating', unit: 'ul', packSize: 50_000 });
    expect((await on.board()).missing).toEqual([
      { material: 'coating', unit: 'ul', booked: 0, jobs: 0, firstDay: null, used: 40_000, kept: true },
    ]);
  });
  it('is saved beyond book stock and opens one count', async () => {
    const { stageId } = bookJob(on.shop, '2026-11-25', { heavyCutCompound: 700_000 });
    const draws = [{ material: 'heavyCutCompound' as const, amount: 700_000 }];
    expect(on.shop.write('stock.drawForStage', { stageId, draws }).drawn[0]).toMatchObject({
      onHandAfter: -80_000,
      beyond: 80_000,
      countOpened: true,
    });
    const open = (await on.board()).counts;
    expect(open).toHaveLength(1);
    expect(open[0]).toMatchObject({ why: 'negative', book: -80_000 });
    const counted = on.shop.write('stock.count', {
      itemId: on.shelf.compound,
      counted: 45_000,
      asOfMovementId: open[0]?.asOfMovementId ?? 0,
    });
    expect(counted).toEqual({ difference: 125_000, onHand: 45_000, since: 0 });
    expect((await on.board()).counts).toEqual([]);
  });
  it('is corrected by a further line, at what it was drawn at', async () => {
    const { stageId } = bookJob(on.shop, '2026-11-25', {});
    on.shop.write('stock.drawForStage', { stageId, draws: [{ itemId: on.shelf.compound, amount: 100_000 }] });
    const page = await on.shop.read('stock.showItem', { itemId: on.shelf.compound });
    const movementId = page.latestMovementId;
    expect(on.shop.write('stock.correctDraw', { movementId, amount: 60_000 }).onHandAfter).toBe(560_000);
    expect(on.shop.write('stock.correctDraw', { movementId, amount: 70_000 }).onHandAfter).toBe(550_000);
    const again = (await on.shop.read('stock.showItem', { itemId: on.shelf.compound })).movements;
    expect(again.slice(0, 3).map((m) => [m.amount, m.correctsId])).toEqual([
      [-10_000, movementId],
      [40_000, movementId],
      [-100_000, null],
    ]);
    // neither the first count nor the correction that took more out is a draw to correct
    for (const id of [1, again[0]?.id ?? 0])
      expect(refusal(() => on.shop.write('stock.correctDraw', { movementId: id, amount: 1 }))).toBe(
        'NOT_A_DRAW',
      );
  });
  it('costs its job nothing once all of it is taken back, whatever it was corrected to in between', async () => {
    const { stageId, jobId } = bookJob(on.shop, '2026-11-25', {});
    const [itemId, supplierId] = [on.shelf.compound, on.shelf.kestle];
    on.shop.write('stock.drawForStage', { stageId, draws: [{ itemId, amount: 70_001 }] });
    const { latestMovementId: movementId } = await on.shop.read('stock.showItem', { itemId });
    const dearer = { itemId, packs: 1, packSize: 1_000_000, priceMinor: 9000 };
    on.shop.write('stock.receive', { supplierId, lines: [dearer] });
    for (const amount of [300_000, 200_000, 100_000, 0])
      on.shop.write('stock.correctDraw', { movementId, amount });
    expect((await on.shop.read('stock.jobCost', { jobId })).totalMinor).toBe(0);
    expect(await on.shop.read('stock.showItem', { itemId })).toMatchObject({
      row: { onHand: 1_620_000, valueMinor: 2554 + 9000 },
    });
  });
  it('proposes more where stages like it used more', async () => {
    for (let i = 0; i < 5; i += 1) {
      const { stageId } = bookJob(on.shop, '2026-11-20', { heavyCutCompound: 10_000 });
      on.shop.write('stock.drawForStage', {
        stageId,
        draws: [{ itemId: on.shelf.compound, amount: 14_000 }],
      });
      on.shop.db.raw.prepare(`UPDATE job_stage SET state = 'done', done_ms = 1 WHERE id = ?`).run(stageId);
    }
    const { stageId } = bookJob(on.shop, '2026-11-27', { heavyCutCompound: 100_000 });
    const [row] = await on.shop.read('stock.proposeDraws', { stageId });
    // (50 + 70) / (50 + 50)
    expect(row).toMatchObject({
      learned: [
        { what: 'stage', n: 5 },
        { what: 'condition', of: 'correction', factor: 1, n: 5 },
      ],
      proposed: 120_000,
    });
  });
  it('proposes by who works and what paint, and names the evidence; what had no item counts as used', async () => {
    const run = (sql: string, ...values: unknown[]): void => void on.shop.db.raw.prepare(sql).run(...values);
    const person = (name: string) =>
      on.shop.write('access.addPerson', { name, role: 'technician', startedDay: '2026-01-01' as LocalDay })
        .id;
    const [ida, tom] = [person('Ida Marlow'), person('Tom Reeve')];
    const past = (who: string, drawn: number): void => {
      const { stageId } = bookJob(on.shop, '2026-11-20', { heavyCutCompound: 10_000, coating: 10_000 });
      run(
        'INSERT INTO stage_work (stage_id, person_id, start_ms, end_ms) VALUES (?, ?, 0, 60000)',
        stageId,
        who,
      );
      on.shop.write('stock.drawForStage', {
        stageId,
        draws: [
          { itemId: on.shelf.compound, amount: drawn },
          { material: 'coating', amount: 12_000 },
        ],
      });
      run(`UPDATE job_stage SET state = 'done', done_ms = 1 WHERE id = ?`, stageId);
    };
    for (let i = 0; i < 10; i += 1) {
      past(ida, 8000);
      past(tom, 16_000);
    }
    const { stageId } = bookJob(on.shop, '2026-11-27', { heavyCutCompound: 100_000, coating: 100_000 });
    const proposed = async (): Promise<readonly number[]> =>
      (await on.shop.read('stock.proposeDraws', { stageId })).map((p) => p.proposed);
    // nobody is at it yet: (5·10 + 240) / (5·10 + 200); coating (50 + 240) / 250, kept without an item
    expect(await proposed()).toEqual([116_000, 116_000]);
    run('INSERT INTO stage_work (stage_id, person_id, start_ms) VALUES (?, ?, 0)', stageId, tom);
    const [row] = await on.shop.read('stock.proposeDraws', { stageId });
    // Tom against the mean of 12: (5·12 + 160) / (5·12 + 120) = 1.222; Ida (60 + 80) / 180; both together 1
    expect(row?.learned).toMatchObject([
      { what: 'stage', factor: 1.16, n: 20 },
      { what: 'technician', of: 'Tom Reeve', n: 10 },
      { what: 'condition', of: 'correction', n: 20 },
    ]);
    expect(row?.learned[1]?.factor).toBeCloseTo(1.2222, 3);
    expect(row?.proposed).toBeCloseTo(116_000 * 1.2222, -2);
  });
  it('goes by who works longest on it, work that runs counted up to now', async () => {
    const run = (sql: string, ...values: unknown[]): void => void on.shop.db.raw.prepare(sql).run(...values);
    const person = (name: string) =>
      on.shop.write('access.addPerson', { name, role: 'technician', startedDay: '2026-01-01' as LocalDay })
        .id;
    const [ida, tom] = [person('Ida Marlow'), person('Tom Reeve')];
    const WORK = 'INSERT INTO stage_work (stage_id, person_id, start_ms, end_ms) VALUES (?, ?, ?, ?)';
    const past = bookJob(on.shop, '2026-11-20', { heavyCutCompound: 10_000 }).stageId;
    run(WORK, past, tom, 0, 60_000);
    on.shop.write('stock.drawForStage', {
      stageId: past,
      draws: [{ itemId: on.shelf.compound, amount: 9000 }],
    });
    run(`UPDATE job_stage SET state = 'done', done_ms = 1 WHERE id = ?`, past);
    const { stageId } = bookJob(on.shop, '2026-11-25', { heavyCutCompound: 10_000 });
    const now = on.shop.now();
    // Ida ten minutes before the hand-over, Tom three hours since
    run(WORK, stageId, ida, now - 190 * 60_000, now - 180 * 60_000);
    run(WORK, stageId, tom, now - 180 * 60_000, null);
    const [row] = await on.shop.read('stock.proposeDraws', { stageId });
    expect(row?.learned[1]).toMatchObject({ what: 'technician', of: 'Tom Reeve', n: 1 });
  });
});
