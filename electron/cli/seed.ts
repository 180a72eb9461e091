import { parseArgs } from 'node:util';
import { openDemo } from '../demo.ts';
import { fromWhereTyped } from '../door/arguments.ts';
import { openHost } from '../openHost.ts';
import { defaultDataDir } from '../options.ts';
import { exitCodeOf, StartStopped, sentenceOf } from '../refusal.ts';

/** Builds the demo shop of a data folder afresh. */
try {
  const { values } = parseArgs({ options: { data: { type: 'string' } } });
  const dataDir = values.data === undefined ? defaultDataDir() : fromWhereTyped(values.data);
  const host = await openHost(dataDir, null);
  try {
    await openDemo(host.service, true);
  } finally {
    await host.close();
  }
} catch (error) {
  if (!(error instanceof StartStopped)) throw error;
  console.error(sentenceOf(error.refusal));
  process.exitCode = exitCodeOf(error.refusal);
}
