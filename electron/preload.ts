import { contextBridge, ipcRenderer } from "electron";
import { portMessage } from "../shared/api/port-message.ts";
import type { ShellBridge } from "../shared/api/shell.ts";
import { channels } from "./shell/channels.ts";

// Runs sandboxed before the page, in a world of its own. The page gets a few named functions and never
// Electron's own objects. What they send is checked by the main process, not here.

ipcRenderer.on(channels.port, (event) => {
  const [port] = event.ports;
  if (port !== undefined) window.postMessage({ kind: portMessage }, location.origin, [port]);
});

const bridge: ShellBridge = {
  platform: process.platform,
  openPort: () => ipcRenderer.invoke(channels.openPort),
  openWindow: (request) => ipcRenderer.invoke(channels.openWindow, request),
  chooseFolder: () => ipcRenderer.invoke(channels.chooseFolder),
  savePdf: (request) => ipcRenderer.invoke(channels.savePdf, request),
};

contextBridge.exposeInMainWorld("pebblechime", bridge);
