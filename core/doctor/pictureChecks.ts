import { existsSync } from 'node:fs';
import path from 'node:path';
import { isPictureWhole, pictureFile, pictureNames } from '../db/pictures.ts';
import { allRows } from '../db/prepared.ts';
import type { ReadDb } from '../db/types.ts';
import type { Check } from './check.ts';

/** The pictures and data sheets beside the file against the records that name them. */
export const pictureChecks: readonly Check[] = [
  {
    name: 'pictures.whole',
    run: (db) =>
      allRows<{ hash: string; number: number }>(
        db,
        `SELECT p.hash, min(j.number) AS number FROM picture p JOIN job j ON j.id = p.job_id
         WHERE p.removed_ms IS NULL GROUP BY p.hash ORDER BY number`,
      )
        .map((row) => ({ ...row, file: pictureFile(folderOf(db), row.hash) }))
        .filter(({ file, hash }) => !isPictureWhole(file, hash))
        .map(({ file, hash, number }) => ({
          hash: hash.slice(0, 12),
          job: String(number),
          state: existsSync(file) ? 'spoiled' : 'gone',
        })),
  },
  {
    name: 'sheets.whole',
    run: (db) =>
      allRows<{ hash: string; item: string }>(
        db,
        `SELECT d.hash, i.name AS item FROM data_sheet d JOIN stock_item i ON i.id = d.item_id
         WHERE d.removed_ms IS NULL ORDER BY i.name`,
      )
        .map((row) => ({ ...row, file: pictureFile(folderOf(db), row.hash) }))
        .filter(({ file, hash }) => !isPictureWhole(file, hash))
        .map(({ file, item }) => ({ item, state: existsSync(file) ? 'spoiled' : 'gone' })),
  },
  {
    name: 'logo.whole',
    run: (db) =>
      allRows<{ hash: string }>(db, 'SELECT DISTINCT hash FROM shop_logo ORDER BY hash')
        .map(({ hash }) => ({ hash, file: pictureFile(folderOf(db), hash) }))
        .filter(({ file, hash }) => !isPictureWhole(file, hash))
        .map(({ file, hash }) => ({ hash: hash.slice(0, 12), state: existsSync(file) ? 'spoiled' : 'gone' })),
  },
  {
    name: 'pictures.named',
    run: (db) => {
      const named = new Set(
        allRows<{ hash: string }>(
          db,
          'SELECT hash FROM picture UNION SELECT hash FROM data_sheet UNION SELECT hash FROM shop_logo',
        ).map((row) => row.hash),
      );
      return pictureNames(folderOf(db))
        .filter((name) => !named.has(name))
        .map((name) => ({ name }));
    },
  },
];

function folderOf(db: ReadDb): string {
  return path.dirname(db.raw.name);
}
