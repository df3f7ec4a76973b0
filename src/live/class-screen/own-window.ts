import { invitationPart } from "../../../shared/api/entry.ts";
import { type WindowRequest, windowName, windowPath } from "../../../shared/api/shell.ts";
import type { Api } from "../../api/api.ts";
import { withoutTicket } from "../../api/ticket.ts";

type ClassRequest = Extract<WindowRequest, { name: "tiles" | "board" }>;

/**
 * Opens the class screen, one student's tile or the class board in a window of its own, with a ticket that
 * opens nothing of the adult's. Call within a press.
 *
 * @returns whether a window opened; a browser may allow none
 */
export async function openClassWindow(api: Api, shows: ClassRequest): Promise<boolean> {
  const bridge = window.pebblechime;
  if (bridge !== undefined) {
    return (await bridge.openWindow(shows)).kind === "opened";
  }
  const { ticket } = await api.classScreen.enter({ here: false });
  const part = ticket === null ? "" : invitationPart(ticket);
  // A window takes over what its opener's tab keeps, and this one must never have the adult's ticket.
  const opened = withoutTicket(() =>
    window.open(windowPath(shows) + part, windowName(shows), "popup"),
  );
  if (opened === null) return false;
  opened.opener = null;
  return true;
}
