import { openDemo } from './demo.ts';
import { startLoopback } from './loopback/server.ts';
import { openBrowser } from './openBrowser.ts';
import { type OpenHost, openHost } from './openHost.ts';
import type { StartOptions } from './options.ts';
import { RENDERER_DIR } from './paths.ts';
import { tell } from './tell.ts';

/**
 * Runs the shop for the person's own browser until it is stopped by a signal.
 * The port comes first: when it is taken, the data folder has not been touched.
 * @throws StartStopped
 */
export async function runBrowserHost(options: StartOptions): Promise<void> {
  const asked = stopAsked();
  const loopback = await startLoopback(RENDERER_DIR, options.port);
  const host = await openShop(options, loopback.freshLink).catch(async (error: unknown) => {
    await loopback.close();
    throw error;
  });
  loopback.serve(host.service);
  const link = loopback.freshLink();
  console.log(tell('start.ready', { url: link }));
  console.log(tell('start.freshLink'));
  openBrowser(link);
  const printFresh = (): void => console.log(tell('start.ready', { url: loopback.freshLink() }));
  process.stdin.on('data', printFresh).on('error', () => undefined);
  await asked;
  process.stdin.destroy();
  await loopback.close();
  await host.close();
}

/** Opens the folder, and the demo shop in it when asked for; what fails leaves no lock behind. */
async function openShop(options: StartOptions, freshLink: () => string): Promise<OpenHost> {
  const host = await openHost(options.dataDir, { freshLink });
  if (!options.demo) return host;
  try {
    await openDemo(host.service);
    return host;
  } catch (error) {
    await host.close();
    throw error;
  }
}

/** Listens from the start, so that a stop while starting closes properly too. The listeners stay: a second signal, as a terminal likes to send, must not cut the closing short. */
function stopAsked(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => resolve());
  });
}
