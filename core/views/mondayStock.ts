import type { ReadCtx } from '../context.ts';
import type { MondayFacts } from '../figures/rules/mondayFacts.ts';
import { addLocalDays, localDaysBetween } from '../shared/time.ts';
import type { LocalDay } from '../shared/units.ts';
import type { StockBoard } from '../shared/views/stock.ts';
import { stockBoard } from './stockBoard.ts';
import { type BookedNeed, bookedNeeds } from './stockFlows.ts';
import { itemRows, takers } from './stockOutlook.ts';

const HORIZON_DAYS = 42;
type Worth = (jobId: string) => number;

/** What the stock lacks in the weeks ahead, with the jobs that hang on it. The jobs are told first, to ask what each is worth. */
export function stockFacts(
  ctx: ReadCtx,
  zone: string,
): {
  readonly jobIds: readonly string[];
  readonly stops: (worth: Worth) => MondayFacts['stockStops'];
  readonly pads: (worth: Worth) => MondayFacts['padsToWash'];
} {
  const board = stockBoard(ctx, HORIZON_DAYS);
  const needs = bookedNeeds(ctx.db, board.today, HORIZON_DAYS, zone);
  const lacking = lackingItems(board, needsByItem(ctx, needs));
  return {
    jobIds: [
      ...new Set([
        ...lacking.flatMap((l) => l.needs.map((n) => n.jobId)),
        ...board.pads.flatMap((p) => p.shortage?.jobId ?? []),
      ]),
    ],
    stops: (worth) =>
      lacking.map(({ needs: of, ...item }) => ({
        ...item,
        stopped: of.map((n) => ({
          ...{ jobId: n.jobId, jobNumber: n.number, customer: n.customer },
          worthMinor: worth(n.jobId),
        })),
      })),
    pads: (worth) => padFacts(board, worth),
  };
}

type Lacking = Omit<MondayFacts['stockStops'][number], 'stopped'> & { readonly needs: readonly BookedNeed[] };

/** Suggested orders of what is used up while booked jobs ask for it, until an order of that day would have come. */
function lackingItems(
  board: StockBoard,
  needs: ReadonlyMap<string, readonly BookedNeed[]>,
): readonly Lacking[] {
  const runOut = new Map(board.items.map((i) => [i.id, i.runOutDay]));
  return board.suggestions.flatMap((seller) =>
    seller.lines.flatMap((line): Lacking[] => {
      const day = runOut.get(line.itemId) ?? null;
      if (day === null) return [];
      const of = stoppedFrom(board.today, day, seller.leadDays, needs.get(line.itemId) ?? []);
      const { itemId, itemName, packs } = line;
      return of.length === 0
        ? []
        : [{ itemId, itemName, packs, supplier: seller.supplierName, day, needs: of }];
    }),
  );
}

function stoppedFrom(
  today: LocalDay,
  runOutDay: LocalDay,
  leadDays: number,
  needs: readonly BookedNeed[],
): readonly BookedNeed[] {
  const from = localDaysBetween(today, runOutDay);
  const within = needs.filter((n) => from <= n.day && n.day <= from + Math.max(1, leadDays));
  return [...new Map(within.map((n) => [n.jobId, n])).values()];
}

function needsByItem(ctx: ReadCtx, needs: readonly BookedNeed[]): ReadonlyMap<string, readonly BookedNeed[]> {
  const taker = takers(itemRows(ctx.db, false));
  return Map.groupBy(
    needs.filter((n) => taker.has(n.material)),
    (n) => taker.get(n.material)?.id ?? '',
  );
}

function padFacts(board: StockBoard, worth: Worth): MondayFacts['padsToWash'] {
  const until = addLocalDays(board.today, 7);
  return board.pads.flatMap(({ itemName, shortage }) => {
    if (!shortage?.washHelps || shortage.jobId === null || shortage.jobNumber === null) return [];
    if (shortage.day > until) return [];
    const { jobId, jobNumber, customer, day } = shortage;
    const lacking = Math.max(1, shortage.needs - shortage.has);
    return [{ itemName, day, lacking, jobId, jobNumber, customer, worthMinor: worth(jobId) }];
  });
}
