import type { z } from "zod";
import {
  entryMs,
  hostProofSchema,
  proofText,
  type Ticket,
  welcomeSchema,
} from "../../shared/api/entry.ts";
import { unreachable } from "./api-error.ts";
import type { Line } from "./line.ts";

/** Why a page may not speak: it has no ticket, the host does not know it, or the host is another program. */
export type NotLetInReason = "uninvited" | "unknown" | "stranger";

/** The page must not try again by itself: it has to be opened anew. */
export class NotLetIn extends Error {
  readonly reason: NotLetInReason;

  constructor(reason: NotLetInReason) {
    super(`This page was not let in (${reason}). Open it anew.`);
    this.name = "NotLetIn";
    this.reason = reason;
  }
}

/**
 * Proves host and page to each other on a line that was just opened, the host first: until it has proved
 * to know the ticket's secret, nothing is sent but the ticket's name.
 *
 * @returns the ticket to keep
 * @throws NotLetIn when page and host do not belong together; unreachable when the line goes down
 */
export async function enter(line: Line, ticket: Ticket): Promise<Ticket> {
  const answers = answersOf(line);
  const key = await keyOf(ticket.secret);
  const nonce = hexOf(crypto.getRandomValues(new Uint8Array(16)));
  line.send(JSON.stringify({ ticket: ticket.id, nonce }));

  const host = read(hostProofSchema, await answers.next());
  if (host === null) throw new NotLetIn("stranger");
  if ("unknown" in host) throw new NotLetIn("unknown");
  const proofOf = (side: "host" | "page") =>
    signed(key, proofText(side, ticket.id, nonce, host.nonce));
  if (host.proof !== (await proofOf("host"))) throw new NotLetIn("stranger");

  line.send(JSON.stringify({ proof: await proofOf("page") }));
  const welcome = read(welcomeSchema, await answers.next());
  if (welcome === null) throw new NotLetIn("stranger");
  if ("unknown" in welcome) throw new NotLetIn("unknown");
  return "ticket" in welcome ? welcome.ticket : { ...ticket, scope: welcome.scope };
}

/** The line's texts one by one, each within the time that an entry may take. */
function answersOf(line: Line) {
  const early: string[] = [];
  let waiting: ((text: string) => void) | null = null;
  line.read((text) => {
    if (waiting === null) early.push(text);
    else waiting(text);
  });
  return {
    next: () =>
      new Promise<string>((resolve, reject) => {
        const giveUp = setTimeout(() => line.close(), entryMs);
        const take = (text: string) => {
          clearTimeout(giveUp);
          waiting = null;
          resolve(text);
        };
        waiting = take;
        const first = early.shift();
        if (first !== undefined) take(first);
        line.onClose(() => {
          clearTimeout(giveUp);
          reject(unreachable());
        });
      }),
  };
}

function keyOf(secret: string): Promise<CryptoKey> {
  const algorithm = { name: "HMAC", hash: "SHA-256" };
  const bytes = new TextEncoder().encode(secret);
  return crypto.subtle.importKey("raw", bytes, algorithm, false, ["sign"]);
}

async function signed(key: CryptoKey, text: string): Promise<string> {
  const bytes = new TextEncoder().encode(text);
  return hexOf(new Uint8Array(await crypto.subtle.sign("HMAC", key, bytes)));
}

const hexOf = (bytes: Uint8Array): string =>
  [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");

function read<Content>(schema: z.ZodType<Content>, text: string): Content | null {
  try {
    return schema.safeParse(JSON.parse(text)).data ?? null;
  } catch {
    return null;
  }
}
