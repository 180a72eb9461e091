import type { ReadCtx } from '../context.ts';
import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { ItemId } from '../shared/ids.ts';
import { addLocalDays, localDayOf, localDaysBetween } from '../shared/time.ts';
import type { EpochMs, LocalDay } from '../shared/units.ts';
import type { PadRow, PadState } from '../shared/views/stock.ts';
import type { Material } from '../shared/vocabulary.ts';
import {
  backIn,
  DEFAULT_USES,
  type PadCounts,
  type PadNeed,
  padShortage,
  piecesLacking,
  usesPerLife,
  type Wash,
} from '../stock/rules/pads.ts';
import { shopOf } from './shop.ts';
import { openShopDays } from './stockDays.ts';
import { type BookedNeed, bookedNeeds } from './stockFlows.ts';
import { type Forward, type ItemRow, itemRows, takers } from './stockOutlook.ts';

/** What pads are asked for in the days ahead. */
type Ahead = Pick<Forward, 'today' | 'needs'>;

type LevelRow = {
  readonly itemId: ItemId;
  readonly state: PadState;
  readonly pieces: number;
  readonly uses: number;
};
const LEVELS = `SELECT b.item_id AS itemId, l.state, sum(l.pieces) AS pieces, sum(l.uses) AS uses
  FROM pad_level l JOIN pad_batch b ON b.id = l.batch_id GROUP BY b.item_id, l.state`;
/** Pieces that a count missed: gone, but not worn out, so they say nothing about how long a piece lasts. */
const LOST = `SELECT b.item_id AS itemId, sum(e.pieces) AS pieces FROM pad_event e JOIN pad_batch b ON b.id = e.batch_id
  WHERE e.lost = 1 GROUP BY b.item_id`;
const LIVES = `SELECT item_id AS itemId, sum(pieces * uses_per_life) * 1.0 / sum(pieces) AS expected
  FROM pad_batch GROUP BY item_id`;
const COUNTED = `SELECT item_id AS itemId, max(closed_ms) AS atMs FROM stock_count
  WHERE closed_ms IS NOT NULL GROUP BY item_id`;

/** When pieces of each item were last put in the wash; those put in before are back by then too. */
const PUT_IN = `SELECT b.item_id AS itemId, max(e.at_ms) AS atMs FROM pad_event e JOIN pad_batch b ON b.id = e.batch_id
  WHERE e.to_state = 'washing' GROUP BY b.item_id`;

/** A piece goes dirty when its stage ends; what a stage has in hand until then is as planned. */
const AT_WORK = `SELECT m.material, sum(m.amount) AS amount FROM job_stage s JOIN job_material m ON m.stage_id = s.id
  WHERE s.state = 'inWork' GROUP BY m.material`;

/** Pads and towels by state, with the life learned and the first job that will lack clean ones. */
export function padRows(db: ReadDb, forward: Ahead, items: readonly ItemRow[]): readonly PadLook[] {
  const levels = Map.groupBy(allRows<LevelRow>(db, LEVELS), (r) => r.itemId);
  const lives = new Map(
    allRows<{ itemId: ItemId; expected: number }>(db, LIVES).map((r) => [r.itemId, r.expected] as const),
  );
  const counted = new Map(
    allRows<{ itemId: ItemId; atMs: EpochMs }>(db, COUNTED).map((r) => [r.itemId, r.atMs] as const),
  );
  const lost = new Map(
    allRows<{ itemId: ItemId; pieces: number }>(db, LOST).map((r) => [r.itemId, r.pieces] as const),
  );
  const washOf = washes(db, forward.today);
  const taker = takers(items);
  const atWork = allRows<{ material: Material; amount: number }>(db, AT_WORK);
  return items
    .filter((i) => i.reusable === 1)
    .map((item) =>
      padLook(forward, {
        item,
        levels: levels.get(item.id) ?? [],
        lost: lost.get(item.id) ?? 0,
        expectedUses: lives.get(item.id) ?? item.usesPerLife ?? DEFAULT_USES,
        needs: forward.needs.filter((n) => taker.get(n.material)?.id === item.id),
        lastCountMs: counted.get(item.id) ?? null,
        wash: washOf(item.id),
        atWork: atWork.reduce((sum, m) => sum + (taker.get(m.material)?.id === item.id ? m.amount : 0), 0),
      }),
    );
}

/** Days that pads are looked ahead at most. */
const MOST_AHEAD = 200;

type ShopWash = Wash & {
  /** 1 where the shop works, from today on. */
  readonly open: Uint8Array;
};

/** How long a wash takes, and what is in it now still needs. Overnight all of it is back tomorrow. */
function washes(db: ReadDb, today: LocalDay): (itemId: ItemId) => ShopWash {
  const { zone, settings } = shopOf(db);
  const days = settings.stock.washDays;
  const putIn = new Map(
    days === 1
      ? []
      : allRows<{ itemId: ItemId; atMs: EpochMs }>(db, PUT_IN).map((r) => [r.itemId, r.atMs] as const),
  );
  const open = openShopDays(db, today, MOST_AHEAD);
  return (itemId) => {
    const atMs = putIn.get(itemId);
    const since = atMs === undefined ? 0 : localDaysBetween(localDayOf(atMs, zone), today);
    return { days, back: backIn(days, since), open };
  };
}

/** The last day up to `day` on which somebody is there to put them in; today where none is left. */
function lastOpen(open: Uint8Array, day: number): number {
  return Math.max(0, open.subarray(0, Math.max(0, day) + 1).lastIndexOf(1));
}

/** Pads and towels as they are now, looking six weeks ahead. */
export function padsNow(ctx: ReadCtx): readonly PadRow[] {
  const { zone } = shopOf(ctx.db);
  const today = localDayOf(ctx.now, zone);
  const needs = bookedNeeds(ctx.db, today, 42, zone);
  return padRows(ctx.db, { today, needs }, itemRows(ctx.db, false)).map((p) => p.row);
}

export type PadLook = {
  readonly row: PadRow;
  readonly round: number;
  readonly wash: ShopWash;
  /** Pieces missing over the horizon though everything is washed every night. */
  readonly lacking: number;
};

/** One item's pieces as the file has them, with what booked jobs need of them. */
type Pieces = {
  readonly item: ItemRow;
  readonly levels: readonly LevelRow[];
  readonly lost: number;
  readonly expectedUses: number;
  readonly needs: readonly BookedNeed[];
  readonly lastCountMs: EpochMs | null;
  readonly wash: ShopWash;
  /** What stages that are worked on now were planned to take. */
  readonly atWork: number;
};

function padLook(forward: Ahead, of: Pieces): PadLook {
  const { item, levels, lastCountMs, wash } = of;
  const pieces = (state: PadState): number => levels.find((l) => l.state === state)?.pieces ?? 0;
  const counts: PadCounts = {
    clean: pieces('clean'),
    dirty: pieces('dirty'),
    washing: pieces('washing'),
  };
  const uses = levels.reduce((sum, l) => sum + l.uses, 0);
  const retired = pieces('retired');
  const learnedFrom = Math.max(0, retired - of.lost);
  const life = usesPerLife(of.expectedUses, uses, learnedFrom);
  const needs: readonly PadNeed[] = of.needs.map((n) => ({ day: n.day, jobId: n.jobId, pieces: n.amount }));
  return {
    round: counts.clean + counts.dirty + counts.washing,
    wash,
    lacking: piecesLacking(counts, needs, life, wash),
    row: {
      itemId: item.id,
      itemName: item.name,
      material: item.material,
      ...counts,
      inUse: Math.min(counts.clean, of.atWork),
      retired,
      usesPerLife: Math.round(life * 10) / 10,
      learnedFrom,
      lastCountMs,
      shortage: shortageOf(padShortage(counts, needs, life, wash), of.needs, forward.today, wash),
    },
  };
}

/** The first job that will lack clean pieces, named. */
function shortageOf(
  lack: ReturnType<typeof padShortage>,
  own: readonly BookedNeed[],
  today: LocalDay,
  wash: ShopWash,
): PadRow['shortage'] {
  const job = lack ? own.find((n) => n.jobId === lack.jobId) : undefined;
  if (!lack || !job) return null;
  return {
    day: addLocalDays(today, lack.day),
    jobId: job.jobId,
    jobNumber: job.number,
    customer: job.customer,
    needs: lack.needs,
    has: lack.has,
    washHelps: lack.washHelps,
    washBy: addLocalDays(today, lastOpen(wash.open, lack.day - wash.days)),
  };
}
