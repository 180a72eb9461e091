import { spawn } from 'node:child_process';
import { hasDisplay } from './openBrowser.ts';
import type { StartOptions } from './options.ts';
import { MAIN_FILE } from './paths.ts';
import { isRefusalCode } from './refusal.ts';
import { failedToday, fetchRuntime, runtimePlaces, runtimeProgram } from './runtime.ts';
import { tell } from './tell.ts';

/** Why there is no window, in one line. */
export type NoWindow = { readonly why: string };

/** Opens the desktop window and waits until it is closed; its exit code, or why there was none. */
export async function tryWindow(options: StartOptions): Promise<number | NoWindow> {
  const hopeless = whyNoWindow(process.platform, process.env, process.getuid?.());
  if (hopeless !== null) return hopeless;
  const program = await findProgram();
  return typeof program === 'string' ? runWindow(program, options) : program;
}

/** What rules a window out before anything is fetched; null when nothing does. */
export function whyNoWindow(
  platform: NodeJS.Platform,
  env: Readonly<Record<string, string | undefined>>,
  userId: number | undefined,
): NoWindow | null {
  if (!hasDisplay(platform, env)) return { why: tell('start.why.noDisplay') };
  return platform === 'linux' && userId === 0 ? { why: tell('start.why.root') } : null;
}

async function findProgram(): Promise<string | NoWindow> {
  const places = runtimePlaces();
  if (places === null) return { why: tell('start.why.noRuntime') };
  const there = runtimeProgram(places.home);
  if (there !== null) return there;
  if (failedToday(places, Date.now())) return { why: tell('start.why.runtimeLater') };
  console.log(tell('start.fetching', { megabytes: 0 }));
  let told = 0;
  const fetched = await fetchRuntime(places, (bytes) => {
    const megabytes = Math.floor(bytes / 1_000_000);
    if (megabytes < told + 10) return;
    told = megabytes;
    console.log(tell('start.fetching', { megabytes }));
  });
  return fetched ?? { why: tell('start.why.noRuntime') };
}

/** Waits for the window to be closed. An end before the window was open, other than a refusal, is a reason why. */
export function runWindow(
  program: string,
  options: Pick<StartOptions, 'dataDir' | 'demo'>,
): Promise<number | NoWindow> {
  return new Promise((resolve) => {
    const args = [MAIN_FILE, '--data', options.dataDir, ...(options.demo ? ['--demo'] : [])];
    const child = spawn(program, args, { stdio: ['inherit', 'pipe', 'inherit'] });
    let said = '';
    child.stdout.on('data', (chunk: Buffer) => {
      process.stdout.write(chunk);
      said += chunk.toString('utf8');
    });
    const forward = (signal: NodeJS.Signals): void => void child.kill(signal);
    process.on('SIGINT', forward).on('SIGTERM', forward);
    const end = (code: number | null, detail: string): void => {
      process.off('SIGINT', forward).off('SIGTERM', forward);
      const open = [tell('start.windowOpen'), tell('start.alreadyOpen')];
      const wasOpen = open.some((sentence) => said.includes(sentence));
      if (wasOpen || (code !== null && isRefusalCode(code))) resolve(code ?? 1);
      else resolve({ why: tell('start.why.runtimeStopped', { detail }) });
    };
    child.once('error', (error) => end(null, error.message));
    child.once('close', (code, signal) => end(code, signal ?? `exit ${code}`));
  });
}
