import { state } from './state.ts';
import { strict } from './strict.ts';

export const ipcMain = strict(
  {
    handle(channel: string, handler: (event: unknown, ...args: unknown[]) => unknown): void {
      if (state.channels.has(channel))
        throw new Error(`Attempted to register a second handler for '${channel}'`);
      state.channels.set(channel, handler);
    },
  },
  'ipcMain',
);
