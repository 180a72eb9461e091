import { BrowserWindow, Menu, type MenuItemConstructorOptions } from 'electron';
import { printWindow, savePage } from './files.ts';
import { tell } from './tell.ts';

/** The window's own menu: what the page itself cannot do. */
export function setMenu(): void {
  const template: MenuItemConstructorOptions[] = [
    {
      label: tell('start.menu.file'),
      submenu: [
        {
          id: 'save-page',
          label: tell('start.menu.pdf'),
          click: () => void withWindow((window) => savePage(window)),
        },
        {
          id: 'print-page',
          label: tell('start.menu.print'),
          click: () => void withWindow((window) => printWindow(window.webContents)),
        },
        { type: 'separator' },
        { role: 'quit', label: tell('start.menu.quit') },
      ],
    },
    { role: 'editMenu' },
    {
      label: tell('start.menu.view'),
      submenu: [
        { role: 'resetZoom' },
        { role: 'zoomIn' },
        { role: 'zoomOut' },
        { type: 'separator' },
        { role: 'togglefullscreen' },
      ],
    },
  ];
  Menu.setApplicationMenu(Menu.buildFromTemplate(template));
}

async function withWindow(act: (window: BrowserWindow) => Promise<unknown>): Promise<void> {
  const window = BrowserWindow.getFocusedWindow() ?? BrowserWindow.getAllWindows()[0];
  if (window === undefined) return;
  try {
    await act(window);
  } catch (error) {
    console.error(error);
  }
}
