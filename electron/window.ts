import { BrowserWindow } from 'electron';
import { PRELOAD_FILE } from './paths.ts';
import { PAGE_URL } from './security.ts';

/** Opens the shop's window. Every security setting is written out, so that a change of defaults changes nothing. */
export async function openWindow(): Promise<BrowserWindow> {
  const window = new BrowserWindow({
    width: 1280,
    height: 800,
    minWidth: 960,
    minHeight: 640,
    show: false,
    title: 'Rakelight',
    webPreferences: {
      preload: PRELOAD_FILE,
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      nodeIntegrationInSubFrames: false,
      nodeIntegrationInWorker: false,
      webSecurity: true,
      allowRunningInsecureContent: false,
      experimentalFeatures: false,
      webviewTag: false,
      spellcheck: false,
    },
  });
  window.once('ready-to-show', () => window.show());
  await window.loadURL(PAGE_URL);
  return window;
}
