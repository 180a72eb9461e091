import { answers } from './answers.ts';
import type { ToTest } from './contract.ts';
import { createRpc, type Rpc } from './rpc.ts';

if (!process.send) throw new Error('electron stand-in: started without its test');

/** The way to the test process. */
export const link: Rpc<ToTest & { readonly exited: (code: number) => void }> = createRpc(
  {
    send: (message) => {
      process.send?.(message);
    },
    listen: (heard) => {
      process.on('message', heard);
    },
  },
  answers,
);
