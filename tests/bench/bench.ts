import { readdirSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { type BenchRow, table } from './measure.ts';

/**
 * `npm run bench [-- <name> …]`: every file here that exports `rows` prints its table when it is through.
 * `npm run bench -- shop <files…>` reads job-shop and flexible job-shop files instead.
 */
const here = import.meta.dirname;
const asked = process.argv.slice(2);
const shopFiles = asked[0] === 'shop' ? asked.slice(1) : null;
const helpers = [
  ...['bench.ts', 'measure.ts', 'offerAsks.ts', 'recorded.ts', 'demo.ts', 'shop.ts', 'tenYears.ts'],
];
const names = readdirSync(here)
  .filter((f) => f.endsWith('.ts') && !helpers.includes(f))
  .map((f) => f.slice(0, -3))
  .filter((name) => !shopFiles && (asked.length === 0 || asked.includes(name)));

console.log(
  `Node ${process.version}, ${os.cpus()[0]?.model ?? 'unknown processor'}, ${os.cpus().length} cores\n`,
);
for (const name of names) {
  console.error(`${name} …`);
  const part = (await import(path.join(here, `${name}.ts`))) as { rows?: () => Promise<readonly BenchRow[]> };
  if (part.rows) console.log(`${table(await part.rows())}\n`);
}
if (shopFiles) {
  const { shopRows } = await import('./shop.ts');
  console.log(await shopRows(shopFiles));
}
