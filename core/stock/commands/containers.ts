import type { z } from 'zod';
import type { WriteCtx } from '../../context.ts';
import type { ReadingInput, stockContainerEntries } from '../../shared/catalogue/stockContainers.ts';
import { refuse } from '../../shared/errors.ts';
import { instantOf, localDayOf } from '../../shared/time.ts';
import type { EpochMs, LocalDay } from '../../shared/units.ts';
import type { ContainerRead, ContainerView } from '../../shared/views/stockContainers.ts';
import { shopOf } from '../../views/shop.ts';
import { openContainers } from '../../views/stockContainers.ts';
import { confirmedRest, OVERFILL, restByWeight } from '../rules/containers.ts';
import {
  addReading,
  type ContainerRecord,
  closeContainerRow,
  findContainer,
  insertContainer,
} from '../store/containers.ts';
import type { ItemRecord } from '../store/items.ts';
import { latestLine, levelOf, lineBefore, openCount } from '../store/ledger.ts';
import { itemOf, postIn, postOut } from './post.ts';

type Entries = typeof stockContainerEntries;
type Input<N extends keyof Entries> = z.output<Entries[N]['input']>;

/**
 * Writes down that a container was opened, full. What is in it stays on hand; where the open ones hold more than the
 * book has, the item is to be counted.
 * @throws NOT_IN_CONTAINERS for what goes round; OPENED_AHEAD for a day to come
 */
export function openContainer(
  ctx: WriteCtx,
  input: Input<'stock.openContainer'>,
): { readonly containerId: string } {
  const item = itemOf(ctx, input.itemId);
  if (item.reusable) return refuse('NOT_IN_CONTAINERS', { item: item.name });
  const { zone } = shopOf(ctx.db);
  const today = localDayOf(ctx.now, zone);
  const openedDay = input.openedDay ?? today;
  if (openedDay > today) return refuse('OPENED_AHEAD', { openedDay });
  const id = ctx.newId<string>();
  const holds = input.holds ?? item.packSize;
  const { batch } = input;
  insertContainer(ctx.db, { id, itemId: item.id, holds, batch, openedDay, openedMs: ctx.now });
  const asOfId = asOfDay(ctx, item, openedDay, openedDay === today ? null : zone);
  keepReading(ctx, id, { asOfId, rest: holds, how: 'opened' });
  const inside = openContainers(ctx.db, item.id).reduce((sum, c) => sum + c.rest, 0);
  if (inside > (levelOf(ctx.db, item.id)?.qty ?? 0))
    openCount(ctx.db, { id: ctx.newId(), itemId: item.id, why: 'asked', openedMs: ctx.now });
  ctx.changed(item.id, 'container');
  return { containerId: id };
}

/** Opened today it was full as the ledger stands now; opened earlier, as it stood before that day. */
function asOfDay(ctx: WriteCtx, item: ItemRecord, day: LocalDay, zone: string | null): number {
  if (zone === null) return latestLine(ctx.db, item.id);
  return lineBefore(ctx.db, item.id, instantOf(day, 0, zone) as EpochMs);
}

type Kept = Omit<Parameters<typeof addReading>[1], 'containerId' | 'personId' | 'atMs'>;

function keepReading(ctx: WriteCtx, containerId: string, reading: Kept): void {
  addReading(ctx.db, { containerId, ...reading, personId: ctx.actor?.personId ?? null, atMs: ctx.now });
}

/**
 * Carries what the book has in opened containers past the lines written so far: what one of them drew until it was read
 * or closed, or what left the shelf sealed, would otherwise be taken from the others over again.
 */
export function carry(ctx: WriteCtx, item: ItemRecord, others: readonly ContainerView[]): void {
  for (const { id, rest } of others)
    keepReading(ctx, id, { asOfId: latestLine(ctx.db, item.id), rest, how: 'book' });
}

/**
 * Keeps what is left in an opened container and puts the book right by the difference. A level by eye that the book
 * lies near enough to confirms it.
 * @throws CONTAINER_CLOSED, NOT_WEIGHED, DENSITY_MISSING, LIGHTER_THAN_EMPTY, MORE_THAN_HOLDS
 */
export function readContainer(ctx: WriteCtx, input: Input<'stock.readContainer'>): ContainerRead {
  const { container, item, book, others } = inUse(ctx, input.containerId);
  const { read } = input;
  const rest = restOf(item, container, read, book);
  settle(ctx, item, rest - book);
  const weighed = 'grossMg' in read ? { tareMg: read.tareMg, gramsPerLitre: read.gramsPerLitre } : {};
  const how = 'grossMg' in read ? 'weight' : 'level';
  keepReading(ctx, container.id, { asOfId: latestLine(ctx.db, item.id), rest, how, ...weighed });
  carry(ctx, item, others);
  ctx.changed(item.id, 'container');
  return { rest, difference: rest - book, onHand: levelOf(ctx.db, item.id)?.qty ?? 0 };
}

function restOf(item: ItemRecord, { holds }: ContainerRecord, read: ReadingInput, book: number): number {
  if (!('grossMg' in read)) return confirmedRest(holds, read, book);
  const { name, unit } = item;
  if (unit !== 'ul' && unit !== 'mg') return refuse('NOT_WEIGHED', { item: name });
  if (unit === 'ul' && read.gramsPerLitre === null) return refuse('DENSITY_MISSING', { item: name });
  const rest = restByWeight(unit, read);
  if (rest < 0) return refuse('LIGHTER_THAN_EMPTY', { item: name });
  if (rest > holds * (1 + OVERFILL))
    return refuse('MORE_THAN_HOLDS', { item: name, read: rest, holds, unit });
  return rest;
}

/**
 * A container is used up, or goes to the waste with what the book has in it.
 * @throws CONTAINER_CLOSED; THROWN_WHY when something is thrown away without a reason
 */
export function closeContainer(
  ctx: WriteCtx,
  input: Input<'stock.closeContainer'>,
): { readonly amount: number; readonly onHand: number } {
  const { container, item, book, others } = inUse(ctx, input.containerId);
  if (input.as === 'empty') settle(ctx, item, -book);
  else if (input.why === '') refuse('THROWN_WHY', { item: item.name });
  else if (book > 0) postOut(ctx, item.id, book, { reason: 'waste', note: input.why });
  closeContainerRow(ctx.db, container.id, input.as, ctx.now);
  carry(ctx, item, others);
  ctx.changed(item.id, 'container');
  return { amount: book, onHand: levelOf(ctx.db, item.id)?.qty ?? 0 };
}

/** The book follows what was seen. */
function settle(ctx: WriteCtx, item: ItemRecord, difference: number): void {
  if (difference > 0) postIn(ctx, item.id, difference, null, { reason: 'count' });
  if (difference < 0) postOut(ctx, item.id, -difference, { reason: 'count' });
}

type InUse = {
  readonly container: ContainerRecord;
  readonly item: ItemRecord;
  readonly book: number;
  /** What else of the item is open. */
  readonly others: readonly ContainerView[];
};

function inUse(ctx: WriteCtx, id: string): InUse {
  const container = findContainer(ctx.db, id) ?? refuse('NOT_FOUND', { what: 'container', id });
  const item = itemOf(ctx, container.itemId);
  const open = openContainers(ctx.db, item.id);
  const view = open.find((c) => c.id === id) ?? refuse('CONTAINER_CLOSED', { item: item.name });
  return { container, item, book: view.rest, others: open.filter((c) => c.id !== id) };
}
