import type { ReadCtx, WriteCtx } from '../../context.ts';
import type { ChangeItemInput } from '../../shared/catalogue/stockInputs.ts';
import { refuse } from '../../shared/errors.ts';
import type { ItemImportReport, ListFault } from '../../shared/views/stockItem.ts';
import { isRoundedCode } from '../rules/slips.ts';
import { findItemByBarcode, findItemByName, type ItemRecord, keptItems } from '../store/items.ts';
import { type ItemList, type ListRow, readItemList } from './itemList.ts';
import { addItem, changeItem } from './items.ts';

function differs(known: ItemRecord, { item, given }: ListRow): boolean {
  return given.some((c) => known[c] !== item[c]);
}

/** What the list says of a known item: a column that it does not have leaves what is written down. */
function saidOf({ item, given }: ListRow): ChangeItemInput['changes'] {
  const { unit, reusable, opening, ...facts } = item;
  return Object.fromEntries(Object.entries(facts).filter(([c]) => (given as readonly string[]).includes(c)));
}

/** What a list would add and change, and where it does not fit. An item is known by its name. */
export function checkItems(ctx: ReadCtx, input: { readonly csv: string }): ItemImportReport {
  return reportOn(ctx, readItemList(input.csv));
}

function reportOn(ctx: ReadCtx, list: ItemList): ItemImportReport {
  const added: string[] = [];
  const changed: string[] = [];
  let same = 0;
  for (const row of list.rows) {
    const known = findItemByName(ctx.db, row.item.name);
    if (!known) added.push(row.item.name);
    else if (differs(known, row)) changed.push(row.item.name);
    else same += 1;
  }
  const faults = [...list.faults, ...shelfFaults(ctx, list.rows)].sort((a, b) => a.line - b.line);
  return { rows: list.lines, added, changed, same, faults };
}

/** What does not go with the items written down already. */
function shelfFaults(ctx: ReadCtx, rows: readonly ListRow[]): readonly ListFault[] {
  const byBarcode = new Map(
    keptItems(ctx.db).flatMap((i) => (i.barcode ? [[i.barcode, i.name] as const] : [])),
  );
  return rows.flatMap(({ line, item, given }) => {
    const found: ListFault[] = [];
    const known = findItemByName(ctx.db, item.name);
    const owner = item.barcode === '' ? undefined : byBarcode.get(item.barcode);
    if (owner && owner.toLowerCase() !== item.name.toLowerCase())
      found.push({ line, field: 'barcode', problem: 'barcodeOf', limit: owner });
    else if (item.barcode !== '') byBarcode.set(item.barcode, item.name);
    const ended = findItemByBarcode(ctx.db, item.barcode);
    if (ended && ended.endedDay !== null)
      found.push({ line, field: 'barcode', problem: 'barcodeOfEnded', limit: ended.name });
    if (isRoundedCode(item.barcode)) found.push({ line, field: 'barcode', problem: 'codeRounded' });
    const goesRound = given.includes('reusable') ? item.reusable : known?.reusable;
    if (known && (known.unit !== item.unit || known.reusable !== goesRound))
      found.push({ line, field: 'unit', problem: 'unitFixed' });
    return found;
  });
}

/**
 * Takes a list over whole.
 * @throws IMPORT_FAULTS when anything in it does not fit; then nothing is taken
 */
export function importItems(ctx: WriteCtx, input: { readonly csv: string }): ItemImportReport {
  const list = readItemList(input.csv);
  const report = reportOn(ctx, list);
  const first = report.faults[0];
  if (first) refuse('IMPORT_FAULTS', { faults: report.faults.length, line: first.line, field: first.field });
  for (const row of list.rows) {
    const known = findItemByName(ctx.db, row.item.name);
    if (!known) addItem(ctx, row.item);
    else if (differs(known, row))
      changeItem(ctx, { itemId: known.id, revision: known.revision, changes: saidOf(row) });
  }
  return report;
}
