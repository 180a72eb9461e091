import { type PermissionCheck, type PermissionRequest, state } from './state.ts';
import { strict } from './strict.ts';

/** Permissions whose grant can be seen from a page; Electron grants them all when nobody answers. */
const SEEN = ['geolocation', 'notifications', 'midi', 'clipboard-read'] as const;

/** What the handlers, as they stand now, would grant. */
export function grantedPermissions(): readonly string[] {
  return SEEN.filter((name) => requestGrants(name) && (state.permissionCheck?.(null, name) ?? true));
}

function requestGrants(name: string): boolean {
  let granted = state.permissionRequest === null;
  state.permissionRequest?.(null, name, (answer) => {
    granted = answer;
  });
  return granted;
}

export const session = strict(
  {
    defaultSession: strict(
      {
        setPermissionRequestHandler(handler: PermissionRequest | null): void {
          state.permissionRequest = handler;
        },
        setPermissionCheckHandler(handler: PermissionCheck | null): void {
          state.permissionCheck = handler;
        },
        setDevicePermissionHandler(handler: ((details: unknown) => boolean) | null): void {
          state.devicePermission = handler;
        },
      },
      'session',
    ),
  },
  'session',
);
