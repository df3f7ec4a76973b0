import type { Session } from "electron";
import { isAppAddress } from "./address.ts";

type Permission = Parameters<NonNullable<Parameters<Session["setPermissionCheckHandler"]>[0]>>[1];

// Playing sound needs no permission at all; choosing which loudspeaker plays it needs this one, and the
// class board fills its display. Everything else a page could ask for is refused.
const allowed: ReadonlySet<Permission> = new Set<Permission>(["speaker-selection", "fullscreen"]);

/** Whether a page of this origin may have this permission. */
export function mayUse(permission: Permission, requestingAddress: string): boolean {
  return allowed.has(permission) && isAppAddress(requestingAddress);
}

/** Without these handlers Electron grants every permission. */
export function limitPermissions(session: Session): void {
  session.setPermissionRequestHandler((_contents, permission, answer, details) =>
    answer(mayUse(permission, details.requestingUrl)),
  );
  session.setPermissionCheckHandler((_contents, permission, origin) => mayUse(permission, origin));
  session.setDevicePermissionHandler(() => false);
}
