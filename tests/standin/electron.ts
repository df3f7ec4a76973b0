/// <reference types="electron" />
import { EventEmitter } from "node:events";
import { setPermissionCheckHandler } from "./permissions.ts";
import { stage } from "./stage.ts";

// What the app's main process gets when it imports "electron". Each part is held to Electron's own type
// definitions, so that a changed signature there fails the type check here.
export { app } from "./app.ts";
export { BrowserWindowStandIn as BrowserWindow } from "./browser-window.ts";
export { ipcMain } from "./ipc-main.ts";
export { MenuStandIn as Menu } from "./menu.ts";
export { MessageChannelStandIn as MessageChannelMain } from "./message-port.ts";

export const protocol = {
  registerSchemesAsPrivileged(schemes) {
    for (const { scheme, privileges } of schemes) {
      if (privileges?.standard !== true || privileges.secure !== true) {
        throw new Error(`The stand-in shows standard, secure schemes only; not ${scheme}.`);
      }
    }
  },
  handle(scheme, handler) {
    // Both sides use this process's own Request and Response; Electron's types only rename them.
    stage.schemes.set(scheme, handler as (request: Request) => Response | Promise<Response>);
  },
} satisfies Pick<Electron.Protocol, "registerSchemesAsPrivileged" | "handle">;

export const session = {
  defaultSession: {
    setPermissionCheckHandler,
    // Headless Chromium never prompts, so no request ever comes; see the read-me for what that hides.
    setPermissionRequestHandler: () => undefined,
    setDevicePermissionHandler: () => undefined,
    protocol,
  } satisfies Pick<
    Electron.Session,
    "setPermissionCheckHandler" | "setPermissionRequestHandler" | "setDevicePermissionHandler"
  > & { protocol: object },
};

const say = (what: string, ...words: (string | undefined)[]) =>
  console.error(`[dialog] ${what}: ${words.filter((word) => word !== undefined).join(" | ")}`);

/**
 * Nobody sits here to answer: each dialog is told on standard error and cancelled. Tests replace these, or
 * say beforehand which button to press while no window is open yet.
 */
export const dialog = {
  showErrorBox: (title: string, content: string) => say("error", title, content),
  async showMessageBox(...given: [object, Electron.MessageBoxOptions?]) {
    const options = (given[1] ?? given[0]) as Electron.MessageBoxOptions;
    say("message", options.title, options.message, options.detail, options.buttons?.join(" / "));
    const pressed = Number(process.env.STANDIN_FIRST_BUTTON ?? options.cancelId ?? 0);
    return { response: pressed, checkboxChecked: false };
  },
  async showSaveDialog(...given: [object, Electron.SaveDialogOptions?]) {
    const options = (given[1] ?? given[0]) as Electron.SaveDialogOptions;
    say("save", options.title, options.defaultPath);
    return { canceled: true, filePath: "" };
  },
  async showOpenDialog(...given: [object, Electron.OpenDialogOptions?]) {
    const options = (given[1] ?? given[0]) as Electron.OpenDialogOptions;
    say("open", options.title);
    return { canceled: true, filePaths: [] as string[] };
  },
} satisfies Pick<
  Electron.Dialog,
  "showErrorBox" | "showMessageBox" | "showOpenDialog" | "showSaveDialog"
>;

/** Nothing opens outside; tests replace these to see what would have. */
export const shell = {
  async openExternal(url: string) {
    console.error(`[shell] open ${url}`);
  },
  async openPath(path: string) {
    console.error(`[shell] show ${path}`);
    return "";
  },
} satisfies Pick<Electron.Shell, "openExternal" | "openPath">;

const onlyDisplay = {
  id: 1,
  bounds: { x: 0, y: 0, width: 1366, height: 768 },
  workArea: { x: 0, y: 0, width: 1366, height: 768 },
};

// Displays carry two dozen more facts; the app looks at these three.
const displays = [onlyDisplay] as unknown as Electron.Display[];
export const screen = Object.assign(new EventEmitter(), {
  getAllDisplays: () => displays,
  getPrimaryDisplay: () => displays[0] as Electron.Display,
  getDisplayMatching: () => displays[0] as Electron.Display,
} satisfies Pick<Electron.Screen, "getAllDisplays" | "getPrimaryDisplay" | "getDisplayMatching">);

/** Says nothing by itself; tests emit `suspend` and `resume`. */
export const powerMonitor = new EventEmitter();

const blockers = new Set<number>();
let lastBlocker = 0;
export const powerSaveBlocker = {
  start(_type) {
    blockers.add(++lastBlocker);
    return lastBlocker;
  },
  stop: (id) => blockers.delete(id),
  isStarted: (id) => blockers.has(id),
} satisfies Pick<Electron.PowerSaveBlocker, "start" | "stop" | "isStarted">;

export const nativeTheme = Object.assign(new EventEmitter(), { shouldUseDarkColors: false });
