import { describe, expect, it } from 'vitest';
import { isTextKey, say } from '#core/shared/text/say.ts';
import { sayError } from '#core/shared/text/sayError.ts';
import type { ListFault } from '#core/shared/views/stockItem.ts';
import { shelfShop } from './shelf.ts';

const on = shelfShop();
type Way = 'stock.checkItems' | 'stock.checkCounts';

/** What a person reads of a list: its faults or its refusal, else how many lines it has. */
async function said(way: Way, csv: string): Promise<readonly string[] | number> {
  const reply = await on.shop.call(way, { csv });
  if (!reply.ok) return [sayError('en', reply.error)];
  const { faults, rows } = reply.value as { faults: readonly ListFault[]; rows: number };
  return faults.length === 0 ? rows : faults.map(sentence);
}

function sentence({ line, field, problem, limit }: ListFault): string {
  const key = `problem.${problem}`;
  if (!isTextKey(key)) throw new Error(`no words for ${problem}`);
  return say('en', 'stock.ui.listFault', { line, field, problem: say('en', key, { limit: limit ?? '' }) });
}

const items = (csv: string) => said('stock.checkItems', csv);
const counts = (csv: string) => said('stock.checkCounts', csv);
const HEAD = 'item,barcode,place,unit,asOf,counted';

describe('a list of items as other programs write it', () => {
  it.each([
    ['semicolons and decimal commas', 'name;unit;packSize\r\nWax;ml;0,5\r\n'],
    ['a mark of UTF-8 in front', '\uFEFFname,unit,packSize\r\nWax,ml,500\r\n'],
    ['tabs and bare line ends', 'name\tunit\tpackSize\nWax\tml\t500\n'],
    ['quotes round every cell', '"name","unit","packSize"\r\n"Wax, ""soft""","ml","500"\r\n'],
    ['a name on two lines', 'name,unit,packSize\r\n"Wax,\nsoft",ml,500\r\n'],
    ['empty columns and lines at the end', 'name,unit,packSize,,\r\nWax,ml,500,,\r\n,,,,\r\n'],
    ['empty lines between', 'name,unit,packSize\r\n\r\n\r\nWax,ml,500\r\n\r\n'],
  ])('is read: %s', async (_, csv) => {
    expect(await items(csv)).toBe(1);
  });
  it.each([
    ['an end of quotes that never comes', 'name,unit,packSize\r\n"Wax,ml,500\r\n', /not a list of values/],
    [
      'letters of another coding',
      'name,unit,packSize\r\nT\uFFFDcher,piece,1\r\n',
      /^Line 2: .*save the list as CSV in UTF-8/,
    ],
    ['UTF-16 without its mark', 'n\0a\0m\0e\0', /a sign that cannot be kept/],
    ['a column nobody knows', 'name,unit,packSize,Preis\r\nWax,ml,500,1\r\n', /^Line 1, Preis: /],
    ['a column given twice', 'name,unit,packSize,name\r\nWax,ml,500,Soap\r\n', /^Line 1, name: /],
    ['no column of names', 'unit,packSize\r\nml,500\r\n', /^Line 2, name: it is missing/],
    ['a column without a name', 'name,unit,,packSize\r\nWax,ml,,500\r\n', /^Line 1: one of its columns/],
    ['a size below zero', 'name,unit,packSize\r\nWax,ml,-500\r\n', /^Line 2, packSize: /],
    ['a size in words', 'name,unit,packSize\r\nWax,ml,half a litre\r\n', /^Line 2, packSize: /],
    [
      'more than the way takes',
      `name,unit,packSize\r\n${'Wax,ml,500\r\n'.repeat(90_000)}`,
      /^The list does not fit: /,
    ],
  ])('is refused by a sentence: %s', async (_, csv, words) => {
    const sentences = await items(csv);
    expect(sentences).toHaveLength(1);
    expect((sentences as readonly string[])[0]).toMatch(words);
  });
  it('keeps a name on one line', async () => {
    const report = on.shop.write('stock.importItems', {
      csv: 'name,unit,packSize\r\n"Wax,\r\n soft",ml,500\r\n',
    });
    expect(report.added).toEqual(['Wax, soft']);
  });
  it('takes nothing of an empty file or a lone head', async () => {
    expect(await items('')).toBe(0);
    expect(await items('name,unit,packSize')).toBe(0);
  });
});

describe('a count list as it comes back', () => {
  const row = (counted: string): string => `${HEAD}\r\nClay,,,g,2,${counted}\r\n`;
  it.each(['300', '300.5', '"300,5"', ' 300 ', '0'])('is read: %s', async (counted) => {
    expect(await counts(row(counted))).toBe(1);
  });
  it.each(['-5', '−5', "'-5", '5-', '1e3', '1/2', 'all', '٣', '9999999999'])(
    'is refused by a sentence: %s',
    async (counted) => {
      expect(await counts(row(counted))).toEqual([expect.stringMatching(/^Line 2, counted: it /)]);
    },
  );
  it('says which of two readings a figure may have where nobody can know', async () => {
    const csv = `${HEAD.replaceAll(',', '\t')}\r\nClay\t\t\tg\t2\t31.200\r\n`;
    expect(await counts(csv)).toEqual([expect.stringMatching(/^Line 2, counted: .*31200 .* 31\.2/)]);
  });
});
