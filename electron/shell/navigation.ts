import type { WebContents } from "electron";
import { isAppAddress } from "./address.ts";
import { externalAddress } from "./external-links.ts";

/**
 * Keeps a window's page inside the app: no navigation or redirect elsewhere, no new window, no web view.
 * An allowed outside link opens in the system's own program instead.
 * @param open hands an allowed address to the system
 */
export function keepInsideApp(contents: WebContents, open: (address: string) => void): void {
  const sendOutside = (address: string) => {
    const allowed = externalAddress(address);
    if (allowed !== null) open(allowed);
  };
  contents.on("will-navigate", (event) => {
    if (isAppAddress(event.url)) return;
    event.preventDefault();
    sendOutside(event.url);
  });
  // A frame inside the page and a redirect were not clicked by anyone: refuse them and open nothing.
  contents.on("will-frame-navigate", (event) => {
    if (!event.isMainFrame && !isAppAddress(event.url)) event.preventDefault();
  });
  contents.on("will-redirect", (event) => {
    if (!isAppAddress(event.url)) event.preventDefault();
  });
  contents.on("will-attach-webview", (event) => event.preventDefault());
  contents.setWindowOpenHandler(({ url }) => {
    sendOutside(url);
    return { action: "deny" };
  });
}
