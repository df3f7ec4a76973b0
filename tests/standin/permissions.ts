import { appsAddress, schemeOf, stage } from "./stage.ts";

type CheckHandler = NonNullable<Parameters<Electron.Session["setPermissionCheckHandler"]>[0]>;
type Permission = Parameters<CheckHandler>[1];

/** Electron's name for a permission beside the browser's own. */
const names: readonly (readonly [permission: Permission, browsers: string])[] = [
  ["geolocation", "geolocation"],
  ["notifications", "notifications"],
  ["media", "camera"],
  ["media", "microphone"],
  ["midi", "midi"],
  ["clipboard-read", "clipboard-read"],
  ["clipboard-sanitized-write", "clipboard-write"],
  ["idle-detection", "idle-detection"],
  ["persistent-storage", "persistent-storage"],
  ["screen-wake-lock", "screen-wake-lock"],
  ["local-fonts", "local-fonts"],
  ["window-management", "window-management"],
  ["storage-access", "storage-access"],
  ["background-sync", "background-sync"],
  ["payment-handler", "payment-handler"],
];

let check: CheckHandler | null = null;

export function setPermissionCheckHandler(handler: CheckHandler | null): void {
  check = handler;
}

/**
 * Asks the app's check handler about each permission and has the browser grant or deny it to the page's
 * origin. Without a handler everything is granted, as Electron does.
 */
export async function applyPermissions(shownAddress: string): Promise<void> {
  if (schemeOf(shownAddress) === null) return;
  const { devtools } = await stage.browser.promise;
  const { origin } = new URL(shownAddress);
  await Promise.all(
    names.map(([permission, name]) =>
      devtools.browser.send("Browser.setPermission", {
        permission: { name },
        setting: isGranted(permission, appsAddress(`${origin}/`)) ? "granted" : "denied",
        origin,
      }),
    ),
  );
}

function isGranted(permission: Permission, origin: string): boolean {
  return (
    check?.(null, permission, origin, { isMainFrame: true, requestingUrl: origin }) ??
    check === null
  );
}
