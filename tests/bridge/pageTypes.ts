import type { DesktopBridge } from '#core/shared/bridge.ts';

/** The window as a page with the bridge sees it. */
export type BridgeWindow = { readonly rakelight: DesktopBridge };
