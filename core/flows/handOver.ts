import { handOver as handCarOver } from '../bookings/commands/car.ts';
import type { WriteCtx } from '../context.ts';
import type { bookingsEntries } from '../shared/catalogue/bookings.ts';
import type { InputOf } from '../shared/entry.ts';
import { localDayOf } from '../shared/time.ts';
import { takeSold } from '../stock/commands/sold.ts';
import { agreedStock } from '../views/agreedThings.ts';
import { shopOf } from '../views/shop.ts';

export type HandOver = InputOf<(typeof bookingsEntries)['bookings.handOver']>;

/**
 * Hands the car over, and with it the things that were agreed beside the work: they leave the stock they are kept in,
 * all or nothing. A car is handed over once, so they leave it once, however the job is billed.
 * @throws as {@link handCarOver}
 */
export function handOver(ctx: WriteCtx, { things, ...record }: HandOver): void {
  handCarOver(ctx, record);
  if (!things) return;
  const day = localDayOf(ctx.now, shopOf(ctx.db).zone);
  takeSold(ctx, record.jobId, agreedStock(ctx.db, record.jobId, day));
}
