import { contextBridge, ipcRenderer } from 'electron';
import type { DesktopBridge } from '../core/shared/bridge.ts';
import { CHANNEL } from './channels.ts';

/** The page hears the plain value and never the event object, which would hand it the channel itself. */
function listen<T>(channel: string, heard: (value: T) => void): () => void {
  const listener = (_event: unknown, value: T): void => heard(value);
  ipcRenderer.on(channel, listener);
  return () => {
    ipcRenderer.off(channel, listener);
  };
}

const bridge: DesktopBridge = {
  host: 'electron',
  call: (call) => ipcRenderer.invoke(CHANNEL.call, call),
  cancel: (commandId) => ipcRenderer.invoke(CHANNEL.cancel, commandId),
  onTouched: (heard) => listen(CHANNEL.touched, heard),
  onProgress: (heard) => listen(CHANNEL.progress, heard),
  saveFile: (file) => ipcRenderer.invoke(CHANNEL.saveFile, file),
  openFile: (path) => ipcRenderer.invoke(CHANNEL.openFile, path),
  openDocument: (file) => ipcRenderer.invoke(CHANNEL.openDocument, file),
  copyText: (text) => ipcRenderer.invoke(CHANNEL.copyText, text),
  printWindow: () => ipcRenderer.invoke(CHANNEL.printWindow),
};

contextBridge.exposeInMainWorld('rakelight', bridge);
