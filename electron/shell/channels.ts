/** The few messages between a page's preload and the main process. The API itself goes over the port. */
export const channels = {
  openPort: "port:open",
  port: "port:here",
  openWindow: "window:open",
  savePdf: "pdf:save",
  chooseFolder: "folder:choose",
} as const;
