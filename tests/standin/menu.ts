import { app } from "./app.ts";
import { BrowserWindowStandIn } from "./browser-window.ts";

type Options = Electron.MenuItemConstructorOptions;
let applicationMenu: MenuStandIn | null = null;

/** What the roles that the app uses do; the ones inside a text field are the browser's own affair. */
const roles: Readonly<Record<string, () => void>> = {
  quit: () => app.quit(),
  reload: () => BrowserWindowStandIn.getFocusedWindow()?.webContents.reload(),
  close: () => BrowserWindowStandIn.getFocusedWindow()?.close(),
  minimize: () => BrowserWindowStandIn.getFocusedWindow()?.minimize(),
  togglefullscreen: () => {
    const window = BrowserWindowStandIn.getFocusedWindow();
    window?.setFullScreen(!window.isFullScreen());
  },
};

class MenuItemStandIn
  implements Pick<Electron.MenuItem, "id" | "label" | "accelerator" | "click" | "enabled">
{
  readonly id: string;
  readonly label: string;
  readonly accelerator: string | null;
  readonly role: Options["role"];
  readonly enabled = true;
  readonly submenu: MenuStandIn | undefined;
  readonly click: () => void;

  constructor(options: Options) {
    this.id = options.id ?? "";
    this.label = options.label ?? "";
    this.accelerator = options.accelerator ?? null;
    this.role = options.role;
    this.submenu = Array.isArray(options.submenu) ? new MenuStandIn(options.submenu) : undefined;
    // The app's click functions take no arguments; a role acts by itself.
    const act = options.click as (() => void) | undefined;
    this.click = () => (act ?? roles[options.role ?? ""])?.();
  }
}

export class MenuStandIn implements Pick<Electron.Menu, never> {
  readonly items: readonly MenuItemStandIn[];

  constructor(template: readonly Options[]) {
    this.items = template.map((options) => new MenuItemStandIn(options));
  }

  static buildFromTemplate(template: readonly Options[]): MenuStandIn {
    return new MenuStandIn(template);
  }

  static setApplicationMenu(menu: MenuStandIn | null): void {
    applicationMenu = menu;
  }

  static getApplicationMenu(): MenuStandIn | null {
    return applicationMenu;
  }

  getMenuItemById(id: string): MenuItemStandIn | null {
    for (const item of this.items) {
      if (item.id === id) return item;
      const inside = item.submenu?.getMenuItemById(id) ?? null;
      if (inside !== null) return inside;
    }
    return null;
  }
}
