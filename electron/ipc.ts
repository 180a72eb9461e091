import { BrowserWindow, clipboard, type IpcMain, type IpcMainInvokeEvent } from 'electron';
import type { Service } from '../core/host/client.ts';
import type { Reply } from '../core/shared/reply.ts';
import { readCall } from './callShape.ts';
import { CHANNEL } from './channels.ts';
import { openDocument, openSaved, printWindow, readFileShape, saveFile } from './files.ts';
import { isTrustedFrame } from './security.ts';

type Answer = (event: IpcMainInvokeEvent, value: unknown) => unknown;

/** Connects the window's bridge. Only our own page, in the whole window, is answered. */
export function connect(ipcMain: IpcMain, service: Service): void {
  const answer = (channel: string, act: Answer): void => {
    ipcMain.handle(channel, (event, value: unknown) => {
      if (!isTrustedFrame(event.senderFrame)) throw new Error('not from our own page');
      return act(event, value);
    });
  };
  answer(CHANNEL.call, (event, value) => call(service, event, value));
  answer(CHANNEL.cancel, (_event, value) => {
    if (typeof value === 'string') service.cancel(value);
  });
  answer(CHANNEL.saveFile, (event, value) => saveFile(windowOf(event), readFileShape(value)));
  answer(CHANNEL.openFile, (_event, value) => openSaved(String(value)));
  answer(CHANNEL.openDocument, (_event, value) => openDocument(readFileShape(value)));
  answer(CHANNEL.copyText, (_event, value) => {
    if (typeof value === 'string') clipboard.writeText(value);
  });
  answer(CHANNEL.printWindow, (event) => printWindow(event.sender));
  service.onTouched((topics) => {
    for (const window of BrowserWindow.getAllWindows()) window.webContents.send(CHANNEL.touched, topics);
  });
}

async function call(service: Service, event: IpcMainInvokeEvent, value: unknown): Promise<Reply> {
  const read = readCall(value);
  if (read === null)
    return { ok: false, error: { code: 'BAD_INPUT', data: { field: 'call', problem: 'unfit' } } };
  const { commandId } = read;
  return service.call(read, {
    onProgress: (done, total, note) => {
      if (commandId !== undefined && !event.sender.isDestroyed())
        event.sender.send(CHANNEL.progress, { commandId, done, total, note });
    },
  });
}

function windowOf(event: IpcMainInvokeEvent): BrowserWindow {
  const window = BrowserWindow.fromWebContents(event.sender);
  if (window === null) throw new Error('the window is gone');
  return window;
}
