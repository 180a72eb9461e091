import type { DesktopBridge } from '#core/shared/bridge.ts';
import type { Host } from './host.ts';

/** The host behind `window.rakelight`. */
export function desktopHost(bridge: DesktopBridge): Host {
  return {
    kind: 'electron',
    call: (call) => bridge.call(call),
    cancel: (commandId) => bridge.cancel(commandId),
    onTouched: (listen) => bridge.onTouched(listen),
    onProgress: (listen) => bridge.onProgress(listen),
    save: async (file) => (await bridge.saveFile(file)).saved,
    open: async (file) => {
      const { opened } = await bridge.openDocument(file);
      if (!opened) throw new Error(`no program opened ${file.fileName}`);
      return opened;
    },
    print: async () => {
      await bridge.printWindow();
    },
  };
}
