import { link } from './link.ts';
import { state } from './state.ts';
import { strict } from './strict.ts';

type Scheme = { readonly scheme: string; readonly privileges?: unknown };

export const protocol = strict(
  {
    registerSchemesAsPrivileged(list: readonly Scheme[]): void {
      if (state.ready)
        throw new Error('protocol.registerSchemesAsPrivileged should be called before app is ready');
      for (const { scheme, privileges } of list) state.privileges.set(scheme, privileges);
      void link.call('schemes', [...state.privileges.keys()]);
    },
    handle(scheme: string, handler: (request: Request) => Response | Promise<Response>): void {
      if (!state.ready) throw new Error('protocol can only be used after the ready event');
      if (!state.privileges.has(scheme))
        throw new Error(`electron stand-in: scheme ${scheme} was not registered as privileged`);
      state.served.set(scheme, handler);
    },
  },
  'protocol',
);
