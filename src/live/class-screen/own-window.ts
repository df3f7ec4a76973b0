import { invitationPart } from "../../../shared/api/entry.ts";
import type { Api } from "../../api/api.ts";
import { withoutTicket } from "../../api/ticket.ts";

/**
 * Opens the class screen in a window of its own, with a ticket that opens nothing else. Call within a press.
 *
 * @param path of the tiles
 * @returns whether a window opened; a browser may allow none
 */
export async function openClassWindow(api: Api, path: string): Promise<boolean> {
  const bridge = window.pebblechime;
  if (bridge !== undefined) {
    return (await bridge.openWindow({ name: "tiles" })).kind === "opened";
  }
  const { ticket } = await api.classScreen.enter();
  const part = ticket === null ? "" : invitationPart(ticket);
  // A window takes over what its opener's tab keeps, and this one must never have the adult's ticket.
  const opened = withoutTicket(() => window.open(path + part, `pebblechime-class${path}`, "popup"));
  if (opened === null) return false;
  opened.opener = null;
  return true;
}
