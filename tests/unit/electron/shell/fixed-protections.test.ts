import type * as Electron from "electron";
import { expect, it, vi } from "vitest";
import { securityHeaders } from "../../../../electron/host/content-policy.ts";
import { declareAppScheme } from "../../../../electron/shell/protocol.ts";
import { AppWindows } from "../../../../electron/window.ts";

// Each of these is one word away from being open, and most such words change nothing that can be seen. So
// they are held to a fixed text as a whole: what is added, taken away or changed anywhere shows here.
// Electron's own checklist of protections (its documentation, "Security") names the reasons.

const given = vi.hoisted(() => ({ windows: [] as Electron.BrowserWindowConstructorOptions[] }));

vi.mock("electron", async () => {
  const { EventEmitter } = await import("node:events");
  class BrowserWindow extends EventEmitter {
    webContents = Object.assign(new EventEmitter(), {
      mainFrame: { frameTreeNodeId: 1 },
      setWindowOpenHandler: () => undefined,
      getURL: () => "",
    });
    constructor(options: Electron.BrowserWindowConstructorOptions) {
      super();
      given.windows.push(options);
    }
    async loadURL() {}
    getBounds = () => ({ x: 0, y: 0, width: 900, height: 600 });
    setFullScreen() {}
    removeMenu() {}
    hide() {}
  }
  const display = { id: 1, workArea: { x: 0, y: 0, width: 1366, height: 768 } };
  const screen = {
    getPrimaryDisplay: () => display,
    getAllDisplays: () => [display],
    getDisplayMatching: () => display,
  };
  return { BrowserWindow, nativeTheme: { shouldUseDarkColors: false }, screen };
});

const none = () => undefined;

it("gives every window these rights and no others", async () => {
  const windows = new AppWindows({
    preload: "/app/preload.cjs",
    stateFile: "/nowhere/place.json",
    openOutside: none,
    onPageLeft: none,
    onBoardShown: none,
    onBroken: none,
    mayClose: () => true,
    onClassShown: none,
    isLeaving: () => false,
  });
  await windows.openMain();
  await windows.openBeside({ name: "board" });
  await windows.openBeside({ name: "tiles" });
  const rights = {
    preload: "/app/preload.cjs",
    contextIsolation: true,
    sandbox: true,
    nodeIntegration: false,
    webviewTag: false,
    backgroundThrottling: false,
    spellcheck: false,
  };
  expect(given.windows.map(({ webPreferences }) => webPreferences)).toStrictEqual([
    rights,
    // The windows that children look at or sit at.
    { ...rights, devTools: false },
    { ...rights, devTools: false },
  ]);
});

it("gives the app's own scheme these privileges and no others", () => {
  const declared: Electron.CustomScheme[] = [];
  declareAppScheme({
    registerSchemesAsPrivileged: (schemes: Electron.CustomScheme[]) => declared.push(...schemes),
  } as unknown as Electron.Protocol); // Only this one of its functions is called.
  expect(declared).toStrictEqual([
    {
      scheme: "pebblechime",
      privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true },
    },
  ]);
});

it("sends every answer with this content policy and these companions", () => {
  expect(securityHeaders).toStrictEqual({
    "content-security-policy": [
      "default-src 'none'",
      "script-src 'self'",
      "style-src 'self'",
      "img-src 'self'",
      "font-src 'self'",
      "media-src 'self'",
      "connect-src 'self'",
      "worker-src 'self'",
      "manifest-src 'self'",
      "base-uri 'none'",
      "form-action 'none'",
      "frame-ancestors 'none'",
      "require-trusted-types-for 'script'",
      "trusted-types default",
    ].join("; "),
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "cross-origin-embedder-policy": "require-corp",
    "permissions-policy": "camera=(), microphone=(), geolocation=(), payment=(), usb=()",
  });
});
