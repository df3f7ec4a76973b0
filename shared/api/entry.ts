import { z } from "zod";

/**
 * How a page in a browser and the loopback host show each other, before the first call, that they belong
 * together. Neither sends its secret: each proves that it has it, the host first. So a program that takes
 * over the port of a host that has ended learns nothing from a page that is still open.
 *
 * page: which ticket, and a nonce; host: its proof, and a nonce; page: its proof; host: welcome.
 */

/** What a line opens: everything, or what the class's own screen needs and no more. */
export const scopes = ["teacher", "class"] as const;
export type Scope = (typeof scopes)[number];

const name = z.string().regex(/^[\w-]{8,60}$/);
const hex = z.string().regex(/^[0-9a-f]{64}$/);

/** A right to speak: its name may be said aloud, its secret never crosses the line after it was given. */
export const ticketSchema = z.strictObject({ id: name, secret: name, scope: z.enum(scopes) });
export type Ticket = z.infer<typeof ticketSchema>;

/** The page's first text. */
export const helloSchema = z.strictObject({ ticket: name, nonce: name });
/** The host's answer: its proof, or that it knows no such ticket. */
export const hostProofSchema = z.union([
  z.strictObject({ proof: hex, nonce: name }),
  z.strictObject({ unknown: z.literal(true) }),
]);
/** The page's second text. */
export const pageProofSchema = z.strictObject({ proof: hex });
/** The host's last word before the API; an invitation is replaced by a ticket that lasts. */
export const welcomeSchema = z.union([
  z.strictObject({ ticket: ticketSchema }),
  z.strictObject({ scope: z.enum(scopes) }),
  z.strictObject({ unknown: z.literal(true) }),
]);

/** No text of the entry is longer, in UTF-16 units. */
export const longestEntryText = 600;

/** Both sides give up an entry that takes longer, in ms. */
export const entryMs = 5_000;

/**
 * What a side signs with its ticket's secret (HMAC-SHA-256 of the text, in hex).
 *
 * @param side who proves itself; so that neither side's proof can be sent back as the other's
 * @param ticketId the ticket's name
 * @param pageNonce the page's nonce
 * @param hostNonce the host's nonce
 * @returns the text
 *
 * Example: `proofText("host", "ticket-1", "nonce-aa", "nonce-bb") // "host|ticket-1|nonce-aa|nonce-bb"`
 */
export function proofText(
  side: "host" | "page",
  ticketId: string,
  pageNonce: string,
  hostNonce: string,
): string {
  return [side, ticketId, pageNonce, hostNonce].join("|");
}

/**
 * The part of an address that lets one page in. It stands behind `#`, so no browser sends it to anybody:
 * no log, link preview or virus scanner can spend it.
 *
 * @param ticket the invitation
 * @returns the part, `#` included
 *
 * Example: `invitationPart({ id: "ticket-1", secret: "secret-1", scope: "class" }) // "#key=ticket-1.secret-1.class"`
 */
export function invitationPart({ id, secret, scope }: Ticket): string {
  return `#key=${id}.${secret}.${scope}`;
}

/**
 * Reads the part of an address that lets one page in.
 *
 * @param part what stands behind the address, `#` included
 * @returns the invitation, or null when there is none
 *
 * Example: `readInvitation("#page") // null`
 */
export function readInvitation(part: string): Ticket | null {
  const [, id, secret, scope] = /^#key=([\w-]+)\.([\w-]+)\.(\w+)$/.exec(part) ?? [];
  return ticketSchema.safeParse({ id, secret, scope }).data ?? null;
}
