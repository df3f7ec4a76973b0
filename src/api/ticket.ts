import { readInvitation, type Ticket, ticketSchema } from "../../shared/api/entry.ts";

/**
 * Where the page keeps its ticket: in the storage of its own tab, which other tabs and other ports do not
 * see, which a reload keeps, and which a window takes over that the page opens. It is read anew for each
 * line and kept nowhere else, so that a page which comes back from the browser's memory has no older one.
 */
const place = "pebblechime-ticket";

export function keptTicket(): Ticket | null {
  try {
    return ticketSchema.safeParse(JSON.parse(sessionStorage.getItem(place) ?? "null")).data ?? null;
  } catch {
    return null;
  }
}

export function keepTicket(ticket: Ticket): void {
  sessionStorage.setItem(place, JSON.stringify(ticket));
}

/** Takes the invitation out of the address, so that it stays in no history, and keeps it as the ticket. */
export function takeInvitation(): boolean {
  const invitation = readInvitation(location.hash);
  if (invitation === null) return false;
  keepTicket(invitation);
  history.replaceState(history.state, "", location.pathname + location.search);
  return true;
}

/**
 * Does something while the tab keeps nothing: a window that is opened meanwhile takes over no ticket, and
 * nothing that an adult was writing about a student.
 */
export function withoutTicket<Result>(act: () => Result): Result {
  const kept = Object.entries(sessionStorage);
  sessionStorage.clear();
  try {
    return act();
  } finally {
    for (const [name, value] of kept) sessionStorage.setItem(name, value);
  }
}
