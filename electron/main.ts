import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { app, type BrowserWindow, dialog, ipcMain, protocol, session, shell } from 'electron';
import { prepareFolder } from './dataFolder.ts';
import { openDemo } from './demo.ts';
import { connect } from './ipc.ts';
import { setMenu } from './menu.ts';
import { type OpenHost, openHost } from './openHost.ts';
import { readOptions, type StartOptions } from './options.ts';
import { servePage } from './page.ts';
import { exitCodeOf, StartStopped, sentenceOf } from './refusal.ts';
import { harden, PAGE_SCHEME } from './security.ts';
import { tell } from './tell.ts';
import { openWindow } from './window.ts';

// Both have to be said before Electron is ready, so they stand at the top.
protocol.registerSchemesAsPrivileged([
  {
    scheme: PAGE_SCHEME,
    privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true },
  },
]);
app.enableSandbox();

/** What the person typed, after Electron's and Chromium's own switches and this file's name. */
function ownArguments(): readonly string[] {
  const at = process.argv.findIndex((argument) => path.resolve(argument) === import.meta.filename);
  return process.argv.slice(at < 0 ? 1 : at + 1);
}

async function run(options: StartOptions): Promise<void> {
  prepareFolder(options.dataDir);
  const profile = path.join(options.dataDir, 'window');
  mkdirSync(profile, { recursive: true, mode: 0o700 });
  app.setPath('userData', profile);
  if (!app.requestSingleInstanceLock()) {
    console.log(tell('start.alreadyOpen'));
    return app.exit(0);
  }
  await app.whenReady();
  const host = await openHost(options.dataDir, { freshLink: () => '' });
  closeAtQuit(host);
  harden(app, session.defaultSession, (url) => void shell.openExternal(url));
  servePage(protocol);
  connect(ipcMain, host.service);
  setMenu();
  if (options.demo) await openDemo(host.service);
  const window = await openWindow();
  app.on('second-instance', () => bringToFront(window));
  console.log(tell('start.windowOpen'));
}

function bringToFront(window: BrowserWindow): void {
  if (window.isMinimized()) window.restore();
  window.show();
  window.focus();
}

/** The shop's file is closed before the process ends, so that nothing is left to be recovered. */
function closeAtQuit(host: OpenHost): void {
  let closed = false;
  app.on('will-quit', (event) => {
    if (closed) return;
    event.preventDefault();
    host
      .close()
      .catch((error: unknown) => console.error(error))
      .finally(() => {
        closed = true;
        app.quit();
      });
  });
  app.on('window-all-closed', () => app.quit());
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => app.quit());
}

function stopWith(error: unknown): void {
  const refused = error instanceof StartStopped ? error.refusal : null;
  console.error(refused ? sentenceOf(refused) : error);
  if (refused && app.isPackaged) dialog.showErrorBox('Rakelight', sentenceOf(refused));
  app.exit(refused ? exitCodeOf(refused) : 1);
}

try {
  run(readOptions(ownArguments())).catch(stopWith);
} catch (error) {
  stopWith(error);
}
