import { invitationPart } from "../../../shared/api/entry.ts";
import { type WindowRequest, windowKey, windowPath } from "../../../shared/api/shell.ts";
import type { Api } from "../../api/api.ts";
import { withoutTicket } from "../../api/ticket.ts";

type TilesRequest = Extract<WindowRequest, { name: "tiles" }>;

/**
 * Opens the class screen, or one student's tile, in a window of its own, with a ticket that opens nothing
 * else. Call within a press.
 *
 * @returns whether a window opened; a browser may allow none
 */
export async function openClassWindow(api: Api, shows: TilesRequest): Promise<boolean> {
  const bridge = window.pebblechime;
  if (bridge !== undefined) {
    return (await bridge.openWindow(shows)).kind === "opened";
  }
  const { ticket } = await api.classScreen.enter({ here: false });
  const part = ticket === null ? "" : invitationPart(ticket);
  // A window takes over what its opener's tab keeps, and this one must never have the adult's ticket.
  const opened = withoutTicket(() =>
    window.open(windowPath(shows) + part, `pebblechime-${windowKey(shows)}`, "popup"),
  );
  if (opened === null) return false;
  opened.opener = null;
  return true;
}
