import type { WindowModel } from './windows.ts';

/** What the parts of the stand-in share inside the main process. */
export const state = {
  ready: false,
  quitting: false,
  sandboxedAll: false,
  privileges: new Map<string, unknown>(),
  served: new Map<string, (request: Request) => Response | Promise<Response>>(),
  channels: new Map<string, (event: unknown, ...args: unknown[]) => unknown>(),
  windows: new Map<number, WindowModel>(),
  preferences: [] as Readonly<Record<string, unknown>>[],
  permissionRequest: null as PermissionRequest | null,
  permissionCheck: null as PermissionCheck | null,
  devicePermission: null as ((details: unknown) => boolean) | null,
};

export type PermissionRequest = (contents: unknown, name: string, answer: (granted: boolean) => void) => void;
export type PermissionCheck = (contents: unknown, name: string) => boolean;
