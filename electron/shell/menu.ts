import type { MenuItemConstructorOptions } from "electron";
import type { ShellWords } from "./words.ts";

/** What the menu can do beyond what the system does by role. */
export interface MenuActions {
  openBoard(): void;
  print(): void;
  savePdf(): void;
  openDataFolder(): void;
  /** Whether the class screen is up. */
  readonly classShown: boolean;
}

/**
 * The application menu. Roles wherever the system has one, so that each does what people expect there.
 * @param platform `process.platform`; macOS keeps quitting and about in the app's own menu
 */
export function menuTemplate(
  words: ShellWords,
  platform: string,
  actions: MenuActions,
): MenuItemConstructorOptions[] {
  const isMac = platform === "darwin";
  // One menu belongs to all windows there; elsewhere the class screen's window has none.
  if (isMac && actions.classShown) return [{ role: "appMenu" }];
  const gap: MenuItemConstructorOptions = { type: "separator" };
  const file: MenuItemConstructorOptions = {
    label: words.file,
    submenu: [
      item("open-board", words.openBoard, actions.openBoard, "CmdOrCtrl+B"),
      gap,
      item("print", words.print, actions.print, "CmdOrCtrl+P"),
      item("save-pdf", words.savePdf, actions.savePdf, "CmdOrCtrl+Shift+P"),
      ...(isMac ? [] : [gap, { role: "quit", label: words.quit } as const]),
    ],
  };
  const edit: MenuItemConstructorOptions = {
    label: words.edit,
    submenu: [
      { role: "undo", label: words.undo },
      { role: "redo", label: words.redo },
      gap,
      { role: "cut", label: words.cut },
      { role: "copy", label: words.copy },
      { role: "paste", label: words.paste },
      { role: "selectAll", label: words.selectAll },
    ],
  };
  const view: MenuItemConstructorOptions = {
    label: words.view,
    submenu: [
      { role: "reload", label: words.reload },
      gap,
      { role: "resetZoom", label: words.actualSize },
      { role: "zoomIn", label: words.larger },
      { role: "zoomOut", label: words.smaller },
      gap,
      { role: "togglefullscreen", label: words.fullScreen },
    ],
  };
  const window: MenuItemConstructorOptions = {
    label: words.window,
    submenu: [
      { role: "minimize", label: words.minimize },
      { role: "close", label: words.close },
    ],
  };
  const help: MenuItemConstructorOptions = {
    label: words.help,
    role: "help",
    submenu: [
      item("open-data-folder", words.openDataFolder, actions.openDataFolder),
      ...(isMac ? [] : [{ role: "about", label: words.about } as const]),
    ],
  };
  const own: MenuItemConstructorOptions[] = isMac ? [{ role: "appMenu" }] : [];
  return [...own, file, edit, view, window, help];
}

function item(
  id: string,
  label: string,
  act: () => void,
  accelerator?: string,
): MenuItemConstructorOptions {
  const base: MenuItemConstructorOptions = { id, label, click: () => act() };
  return accelerator === undefined ? base : { ...base, accelerator };
}
