/** The `electron` module as the built main file finds it in tests. What is missing here cannot be imported. */
export { app } from './app.ts';
export { ipcMain } from './ipc.ts';
export { protocol } from './protocol.ts';
export { session } from './session.ts';
export { clipboard, dialog, Menu, shell } from './system.ts';
export { BrowserWindow } from './windows.ts';
