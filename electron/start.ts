import { spawn } from 'node:child_process';
import { say } from '../core/shared/text/say.ts';
import { runBrowserHost } from './browserMain.ts';
import { checkFolder } from './dataFolder.ts';
import { hasDisplay } from './openBrowser.ts';
import { defaultDataDir, readOptions, type StartOptions } from './options.ts';
import { MAIN_FILE } from './paths.ts';
import { exitCodeOf, isRefusalCode, StartStopped, sentenceOf } from './refusal.ts';
import { failedToday, fetchRuntime, runtimePlaces, runtimeProgram } from './runtime.ts';

/** Opens the desktop window where its runtime is (or can be fetched), else the browser host with one line why. */
async function start(args: readonly string[]): Promise<number> {
  const options = readOptions(args);
  if (options.help) {
    console.log(say('en', 'start.help', { folder: defaultDataDir() }));
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

type NoWindow = { readonly why: string };

async function tryWindow(options: StartOptions): Promise<number | NoWindow> {
  if (!hasDisplay()) return { why: say('en', 'start.why.noDisplay') };
  if (process.platform === 'linux' && process.getuid?.() === 0) return { why: say('en', 'start.why.root') };
  const program = await findProgram();
  return typeof program === 'string' ? runWindow(program, options) : program;
}

async function findProgram(): Promise<string | NoWindow> {
  const places = runtimePlaces();
  if (places === null) return { why: say('en', 'start.why.noRuntime') };
  const there = runtimeProgram(places.home);
  if (there !== null) return there;
  if (failedToday(places, Date.now())) return { why: say('en', 'start.why.runtimeLater') };
  console.log(say('en', 'start.fetching', { megabytes: 0 }));
  let told = 0;
  const fetched = await fetchRuntime(places, (bytes) => {
    const megabytes = Math.floor(bytes / 1_000_000);
    if (megabytes < told + 10) return;
    told = megabytes;
    console.log(say('en', 'start.fetching', { megabytes }));
  });
  return fetched ?? { why: say('en', 'start.why.noRuntime') };
}

/** Waits for the window to be closed. An end before the window was open, other than a refusal, is a reason why. */
function runWindow(program: string, options: StartOptions): Promise<number | NoWindow> {
  return new Promise((resolve) => {
    const args = [MAIN_FILE, '--data', options.dataDir, ...(options.demo ? ['--demo'] : [])];
    const child = spawn(program, args, { stdio: ['inherit', 'pipe', 'inherit'] });
    let open = false;
    child.stdout.on('data', (chunk: Buffer) => {
      process.stdout.write(chunk);
      const said = chunk.toString('utf8');
      open ||= said.includes(say('en', 'start.windowOpen')) || said.includes(say('en', 'start.alreadyOpen'));
    });
    const forward = (signal: NodeJS.Signals): void => void child.kill(signal);
    process.on('SIGINT', forward).on('SIGTERM', forward);
    const end = (code: number | null, detail: string): void => {
      process.off('SIGINT', forward).off('SIGTERM', forward);
      if (open || (code !== null && isRefusalCode(code))) resolve(code ?? 1);
      else resolve({ why: say('en', 'start.why.runtimeStopped', { detail }) });
    };
    child.once('error', (error) => end(null, error.message));
    child.once('close', (code, signal) => end(code, signal ?? `exit ${code}`));
  });
}

try {
  process.exitCode = await start(process.argv.slice(2));
} catch (error) {
  if (!(error instanceof StartStopped)) throw error;
  console.error(sentenceOf(error.refusal));
  process.exitCode = exitCodeOf(error.refusal);
}
