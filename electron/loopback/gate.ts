import { createHmac, randomBytes, timingSafeEqual } from "node:crypto";
import { invitationPart, type Scope, type Ticket } from "../../shared/api/entry.ts";

/** What of a request decides whether it comes from our own page. */
export interface Caller {
  readonly host: string | undefined;
  readonly origin: string | undefined;
}

/** Unspent invitations are few: one for the first page and one for each further start. */
const mostInvitations = 20;
/** An address that nobody opened is good for so long, in ms. */
export const invitationMs = 600_000;
/** Far more than one computer's pages; the one that was longest not used goes first. */
const mostTickets = 500;

/** A ticket of which the gate knows; an invitation is good for one page and for ten minutes. */
interface Held {
  readonly ticket: Ticket;
  /** Until when an invitation is good, by the gate's clock; null for a ticket that lasts. */
  readonly untilMs: number | null;
}

/**
 * Decides who may talk to the loopback host. Any program on this machine and any web page in the browser
 * can reach the port; only a page that holds a ticket gets in.
 *
 * An invitation is a ticket in an address. The page that opens the address exchanges it for a ticket that
 * it keeps for its tab alone, so the address in a history opens nothing. A page that is loaded again in the
 * moment of its entry may not have got that ticket: when its line is gone before a word was said on it, the
 * invitation is good again. No cookie is used: browsers send those to every port of this machine.
 *
 * @param port the port that was bound; both it and the host's name must be right in every request, or a
 *   name that an attacker points at this machine (DNS rebinding) would do
 * @param nowMs a clock that counts evenly
 */
export function openGate(port: number, nowMs: () => number = () => performance.now()) {
  const host = `127.0.0.1:${port}`;
  const origin = `http://${host}`;
  const invitations = new Map<string, Held>();
  const tickets = new Map<string, Held>();
  /** Invitations whose page is in and has not spoken yet, by the name of the ticket it was given. */
  const entering = new Map<string, Held>();
  /** The ticket that was given for an invitation which is good again, by the invitation's name. */
  const givenFor = new Map<string, string>();

  function issue(scope: Scope): Ticket {
    const ticket = freshTicket(scope);
    dropOldest(tickets, mostTickets);
    tickets.set(ticket.id, { ticket, untilMs: null });
    return ticket;
  }

  function find(id: string): Held | null {
    const held = invitations.get(id) ?? tickets.get(id);
    if (held === undefined) return null;
    if (held.untilMs === null || nowMs() < held.untilMs) return held;
    invitations.delete(id);
    givenFor.delete(id);
    return null;
  }

  return {
    origin,
    /** A fresh address that opens the app for one page. */
    invite(): string {
      const ticket = freshTicket("teacher");
      dropOldest(invitations, mostInvitations);
      invitations.set(ticket.id, { ticket, untilMs: nowMs() + invitationMs });
      return `${origin}/${invitationPart(ticket)}`;
    },
    /** A ticket that lasts, for a page that is in already. */
    issue,
    /** Whether an address was opened by a page, or is otherwise good no more. */
    isSpent(address: string): boolean {
      const id = /#key=([\w-]+)\./.exec(address)?.[1] ?? "";
      return !invitations.has(id);
    },
    /** The ticket of this name, while it is good. */
    find: (id: string): Ticket | null => find(id)?.ticket ?? null,
    /**
     * Lets the holder of a ticket in, who has proved to have it.
     * @returns what is open to it and, for an invitation, which is spent by it, the ticket to keep
     *   instead; null when another page was quicker
     */
    admit(id: string): { readonly scope: Scope; readonly ticket: Ticket | null } | null {
      const held = find(id);
      if (held === null) return null;
      const { scope } = held.ticket;
      if (invitations.delete(id)) {
        tickets.delete(givenFor.get(id) ?? "");
        givenFor.delete(id);
        const ticket = issue(scope);
        if (held.untilMs !== null) entering.set(ticket.id, held);
        return { scope, ticket };
      }
      // Its page had got it after all.
      for (const [invitation, given] of givenFor) {
        if (given !== id) continue;
        givenFor.delete(invitation);
        invitations.delete(invitation);
      }
      // The last used stand last.
      tickets.delete(id);
      tickets.set(id, held);
      return { scope, ticket: null };
    },
    /** A page has spoken on the line of its ticket, so it keeps that: its invitation is spent for good. */
    spoke: (ticketId: string): boolean => entering.delete(ticketId),
    /** A line is gone; where no word was said on it, the invitation that opened it is good again. */
    gone(ticketId: string): void {
      const held = entering.get(ticketId);
      if (held === undefined) return;
      entering.delete(ticketId);
      invitations.set(held.ticket.id, held);
      givenFor.set(held.ticket.id, ticketId);
    },
    /** Takes back every ticket of the adult's but those that are in use. */
    forgetUnused(inUse: ReadonlySet<string>): void {
      for (const [id, { ticket }] of tickets) {
        if (ticket.scope === "teacher" && !inUse.has(id)) tickets.delete(id);
      }
    },
    /** Takes a ticket back; a line that it opened goes on until it closes. */
    forget: (id: string): boolean => tickets.delete(id),
    /** Whether a request was addressed to us by name. */
    isOurHost: (caller: Caller) => caller.host === host,
    /** Whether a request, when it names its origin, was made by our page. */
    isOurOrigin: (caller: Caller) => caller.origin === undefined || caller.origin === origin,
    /** Whether a socket may be opened, to prove itself on. Browsers always name the origin of one. */
    mayKnock: (caller: Caller) => caller.host === host && caller.origin === origin,
  };
}
export type Gate = ReturnType<typeof openGate>;

function freshTicket(scope: Scope): Ticket {
  return { id: randomBytes(12).toString("base64url"), secret: secret(), scope };
}

function dropOldest(held: Map<string, Held>, most: number): void {
  const [oldest] = held.keys();
  if (held.size >= most && oldest !== undefined) held.delete(oldest);
}

/** 256 random bits, in letters and digits that fit into an address. */
export function secret(): string {
  return randomBytes(32).toString("base64url");
}

/** Proves to have a secret, without saying it. */
export function proof(secret: string, text: string): string {
  return createHmac("sha256", secret).update(text).digest("hex");
}

/** Compares without telling by its time how much was right. */
export function isSame(given: string, wanted: string): boolean {
  const [a, b] = [Buffer.from(given), Buffer.from(wanted)];
  return a.length === b.length && timingSafeEqual(a, b);
}
