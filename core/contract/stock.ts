import type { HandlersFor } from '../handler.ts';
import type { stockEntries } from '../shared/catalogue/stock.ts';
import { closeContainer, openContainer, readContainer } from '../stock/commands/containers.ts';
import { askCount, count } from '../stock/commands/counts.ts';
import { addSheet, removeSheet, sheetDocument } from '../stock/commands/dataSheets.ts';
import { receive } from '../stock/commands/deliveries.ts';
import { correctDraw, drawForStage, returnItem, waste } from '../stock/commands/draws.ts';
import { checkCounts, importCounts } from '../stock/commands/importCounts.ts';
import { checkItems, importItems } from '../stock/commands/importItems.ts';
import {
  addItem,
  addSupplier,
  askAgain,
  changeItem,
  changeSupplier,
  giveCodes,
  linkSupplier,
  notToday,
} from '../stock/commands/items.ts';
import { cancelOrderLine, expectLine, makeOrders } from '../stock/commands/orders.ts';
import { padsRetire, padsUsed, padsWash } from '../stock/commands/pads.ts';
import { giveUses, removeUses } from '../stock/commands/uses.ts';
import { countFile } from '../stock/countFile.ts';
import { itemsFile, labelsFile, orderFile } from '../stock/files.ts';
import { stockBoard, stockNeeds } from '../views/stockBoard.ts';
import { openContainers } from '../views/stockContainers.ts';
import { countPlan } from '../views/stockCountPlan.ts';
import { jobMaterialCost, proposeDraws } from '../views/stockDraws.ts';
import { countSheet, detailOf, findItems, itemByBarcode, stockItemPage } from '../views/stockItem.ts';
import { orderById, orderRows } from '../views/stockOrders.ts';
import { itemRows } from '../views/stockOutlook.ts';
import { padsNow } from '../views/stockPads.ts';
import { suppliers } from '../views/stockSuppliers.ts';
import { usesWithoutItem } from '../views/stockUses.ts';
import { stockValueAt } from '../views/stockValue.ts';

export const stockHandlers: HandlersFor<typeof stockEntries> = {
  'stock.showBoard': (ctx, input) => stockBoard(ctx, input.horizonDays),
  'stock.listItems': (ctx, input) =>
    itemRows(ctx.db, input.withEnded).map((i) => ({ ...detailOf(i), onHand: i.onHand })),
  'stock.showItem': (ctx, input) => stockItemPage(ctx, input.itemId, input.horizonDays),
  'stock.needs': (ctx) => stockNeeds(ctx),
  'stock.valueAt': (ctx, input) => stockValueAt(ctx, input.day),
  'stock.findItems': (ctx, input) => findItems(ctx.db, input),
  'stock.findBarcode': (ctx, input) => itemByBarcode(ctx, input.barcode),
  'stock.addItem': addItem,
  'stock.changeItem': changeItem,
  'stock.addSupplier': addSupplier,
  'stock.changeSupplier': changeSupplier,
  'stock.listSuppliers': (ctx) => suppliers(ctx.db),
  'stock.linkSupplier': linkSupplier,
  'stock.receive': receive,
  'stock.proposeDraws': (ctx, input) => proposeDraws(ctx.db, input.stageId, ctx.now),
  'stock.drawForStage': drawForStage,
  'stock.correctDraw': correctDraw,
  'stock.usesWithoutItem': (ctx, input) => usesWithoutItem(ctx.db, input),
  'stock.giveUses': giveUses,
  'stock.removeUses': removeUses,
  'stock.waste': waste,
  'stock.returnItem': returnItem,
  'stock.askCount': askCount,
  'stock.showCount': (ctx, input) => countSheet(ctx, input.itemId),
  'stock.count': count,
  'stock.containers': (ctx, input) => openContainers(ctx.db, input.itemId),
  'stock.openContainer': openContainer,
  'stock.readContainer': readContainer,
  'stock.closeContainer': closeContainer,
  'stock.countPlan': (ctx) => countPlan(ctx),
  'stock.countList': { make: countFile },
  'stock.checkCounts': checkCounts,
  'stock.importCounts': importCounts,
  'stock.showPads': (ctx) => padsNow(ctx),
  'stock.padsUsed': padsUsed,
  'stock.padsWash': padsWash,
  'stock.padsRetire': padsRetire,
  'stock.notToday': notToday,
  'stock.askAgain': askAgain,
  'stock.makeOrders': makeOrders,
  'stock.listOrders': (ctx, input) => orderRows(ctx.db, ctx.now, input.open, input.limit),
  'stock.showOrder': (ctx, input) => orderById(ctx.db, ctx.now, input.orderId),
  'stock.cancelOrderLine': cancelOrderLine,
  'stock.expectLine': expectLine,
  'stock.jobCost': (ctx, input) => jobMaterialCost(ctx.db, input.jobId),
  'stock.orderFile': { make: orderFile },
  'stock.addSheet': addSheet,
  'stock.removeSheet': removeSheet,
  'stock.sheetFile': { make: sheetDocument },
  'stock.labels': { make: labelsFile },
  'stock.giveCodes': giveCodes,
  'stock.exportItems': { make: itemsFile },
  'stock.checkItems': checkItems,
  'stock.importItems': importItems,
};
