import { EMPTY_FIFO, type Fifo, fifoIn, fifoTake, share, type UnitCost } from './cost.ts';

/** A line of a ledger: receipts carry their cost, issues none that counts here. */
export type FifoLine = UnitCost & {
  readonly id?: number;
  /** The draw that it corrects. */
  readonly correctsId?: number | null;
};

type Debt = { readonly of: number | null; readonly qty: number };
type Books = {
  stock: Fifo;
  /** What each draw that is corrected later was given, oldest first. */
  readonly given: ReadonlyMap<number, UnitCost[]>;
  /** Taken beyond all layers, by whom, oldest first. */
  debts: Debt[];
};

/**
 * First in, first out over a whole ledger in its order. What a correction takes back lies in front again at what it was
 * taken at, as if it had never left; a purchase it is not.
 */
export function fifoOf(lines: readonly FifoLine[]): Fifo {
  const given = new Map<number, UnitCost[]>();
  for (const line of lines) if (line.correctsId) given.set(line.correctsId, []);
  const books: Books = { stock: EMPTY_FIFO, given, debts: [] };
  for (const { id, correctsId, qty, valueMinor } of lines) {
    if (qty < 0) issue(books, -qty, correctsId ?? id ?? null);
    else if (qty > 0 && correctsId) giveBack(books, qty, correctsId);
    else if (qty > 0) receive(books, { qty, valueMinor });
  }
  return books.stock;
}

function issue(books: Books, qty: number, of: number | null): void {
  const { stock, pieces } = fifoTake(books.stock, qty);
  const owed = stock.owed - books.stock.owed;
  books.stock = stock;
  if (of !== null) books.given.get(of)?.push(...pieces);
  if (owed > 0) books.debts.push({ of, qty: owed });
}

/** A receipt; what it settles goes to those who took on credit. */
function receive(books: Books, came: UnitCost): void {
  const before = books.stock;
  books.stock = fifoIn(before, came.qty, came.valueMinor);
  let settled: UnitCost = {
    qty: before.owed - books.stock.owed,
    valueMinor: books.stock.issuedMinor - before.issuedMinor,
  };
  while (settled.qty > 0) {
    const [debt, ...later] = books.debts;
    if (!debt) return;
    const qty = Math.min(debt.qty, settled.qty);
    const piece = { qty, valueMinor: share(qty, settled) };
    if (debt.of !== null) books.given.get(debt.of)?.push(piece);
    settled = less(settled, piece);
    books.debts = debt.qty > qty ? [{ ...debt, qty: debt.qty - qty }, ...later] : later;
  }
}

/** What the draw still owes first, then what it was given last. */
function giveBack(books: Books, qty: number, of: number): void {
  let left = qty;
  books.debts = books.debts.flatMap((debt) => {
    const off = debt.of === of ? Math.min(left, debt.qty) : 0;
    left -= off;
    books.stock = { ...books.stock, owed: books.stock.owed - off };
    return debt.qty > off ? [{ ...debt, qty: debt.qty - off }] : [];
  });
  const pieces = books.given.get(of) ?? [];
  while (left > 0) {
    const piece = pieces.pop();
    if (!piece) return;
    const back = { qty: Math.min(left, piece.qty), valueMinor: share(Math.min(left, piece.qty), piece) };
    if (back.qty < piece.qty) pieces.push(less(piece, back));
    left -= back.qty;
    lieInFront(books, back);
  }
}

function lieInFront(books: Books, back: UnitCost): void {
  const { layers, owed, issuedMinor } = books.stock;
  books.stock = { layers, owed, issuedMinor: issuedMinor - back.valueMinor };
  if (owed > 0) receive(books, back);
  else books.stock = { ...books.stock, layers: [back, ...layers] };
}

function less(all: UnitCost, part: UnitCost): UnitCost {
  return { qty: all.qty - part.qty, valueMinor: all.valueMinor - part.valueMinor };
}
