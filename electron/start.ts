import { runBrowserHost } from './browserMain.ts';
import { checkFolder } from './dataFolder.ts';
import { tryWindow } from './desktopStart.ts';
import { defaultDataDir, readOptions } from './options.ts';
import { exitCodeOf, StartStopped, sentenceOf } from './refusal.ts';
import { tell } from './tell.ts';

/** Opens the desktop window where its runtime is (or can be fetched), else the browser host with one line why. */
async function start(args: readonly string[]): Promise<number> {
  const options = readOptions(args);
  if (options.help) {
    console.log(tell('start.help', { folder: defaultDataDir() }));
    return 0;
  }
  checkFolder(options.dataDir);
  // A port is a wish for the browser.
  if (!options.browser && options.port === 0) {
    const ended = await tryWindow(options);
    if (typeof ended === 'number') return ended;
    console.log(ended.why);
  }
  await runBrowserHost(options);
  return 0;
}

try {
  process.exitCode = await start(process.argv.slice(2));
} catch (error) {
  if (!(error instanceof StartStopped)) throw error;
  console.error(sentenceOf(error.refusal));
  process.exitCode = exitCodeOf(error.refusal);
}
