import type { MenuItemConstructorOptions } from 'electron';
import { appModel } from './app.ts';
import { strict } from './strict.ts';

function unanswered(name: string): () => Promise<never> {
  return async () => {
    throw new Error(`electron stand-in: dialog.${name} has no answer; the test has to assign one`);
  };
}

/** Plain objects on purpose: a test assigns its answers to them, as it would in the real thing. */
export const dialog = {
  showSaveDialog: unanswered('showSaveDialog'),
  showOpenDialog: unanswered('showOpenDialog'),
  showMessageBox: unanswered('showMessageBox'),
  showErrorBox: (title: string, text: string): void => console.error(`[dialog] ${title}: ${text}`),
};

export const shell = {
  openExternal: async (): Promise<never> => {
    throw new Error('electron stand-in: shell.openExternal has no answer; the test has to assign one');
  },
  openPath: async (): Promise<never> => {
    throw new Error('electron stand-in: shell.openPath has no answer; the test has to assign one');
  },
};

let copied = '';
export const clipboard = strict(
  {
    writeText: (text: string): void => {
      copied = text;
    },
    readText: (): string => copied,
  },
  'clipboard',
);

type Item = Omit<MenuItemConstructorOptions, 'submenu' | 'click'> & {
  readonly submenu?: MenuModel;
  readonly click: () => void;
};

class MenuModel {
  static #shown: MenuModel | null = null;
  readonly items: readonly Item[];

  constructor(items: readonly Item[]) {
    this.items = items;
  }

  static buildFromTemplate(template: readonly MenuItemConstructorOptions[]): MenuModel {
    return new MenuModel(template.map(itemOf));
  }

  static setApplicationMenu(menu: MenuModel | null): void {
    MenuModel.#shown = menu;
  }

  static getApplicationMenu(): MenuModel | null {
    return MenuModel.#shown;
  }

  getMenuItemById(id: string): Item | null {
    for (const item of this.items) {
      const found = item.id === id ? item : item.submenu?.getMenuItemById(id);
      if (found) return found;
    }
    return null;
  }
}

function itemOf(option: MenuItemConstructorOptions): Item {
  const { submenu, click, ...rest } = option;
  const act = click as (() => void) | undefined;
  return {
    ...rest,
    ...(Array.isArray(submenu) ? { submenu: MenuModel.buildFromTemplate(submenu) } : {}),
    click: () => (rest.role === 'quit' ? appModel.quit() : act?.()),
  };
}

export const Menu = MenuModel;
