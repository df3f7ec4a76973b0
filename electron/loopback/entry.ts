import type { z } from "zod";
import {
  entryMs,
  helloSchema,
  longestEntryText,
  pageProofSchema,
  proofText,
  type Ticket,
} from "../../shared/api/entry.ts";
import { type Gate, isSame, proof, secret } from "./gate.ts";

/** A socket of the `ws` package, as far as it is used here. */
export interface KnockingSocket {
  send(text: string): void;
  terminate(): void;
  close(code: number, reason: string): void;
  on(event: "message", listener: Hear): unknown;
  on(event: "close" | "error", listener: () => void): unknown;
  off(event: "message", listener: Hear): unknown;
}
type Hear = (data: { toString(): string }, isBinary: boolean) => void;

/** Sockets that are open and have not proved themselves; a page of ours needs some milliseconds. */
const mostWaiting = 20;

/** The place where sockets prove themselves, the host first; see `shared/api/entry.ts`. */
export function openEntry(gate: Gate) {
  const waiting = new Set<KnockingSocket>();

  /**
   * @param socket a socket that was just opened
   * @param welcomed told once, when its page has proved itself; the socket is then free for the API
   */
  function receive(socket: KnockingSocket, welcomed: (by: Admitted) => void): void {
    // Whoever holds sockets open must not keep our own page out: the longest waiting one goes.
    const [longest] = waiting;
    if (waiting.size >= mostWaiting) longest?.terminate();
    waiting.add(socket);
    const tooLong = setTimeout(() => socket.terminate(), entryMs);
    const over = () => {
      clearTimeout(tooLong);
      waiting.delete(socket);
      socket.off("message", hear);
    };
    const step = entrySteps(gate);
    const hear: Hear = (data, isBinary) => {
      const text = isBinary ? "" : data.toString();
      const { answer, admitted } = step(text.length > longestEntryText ? "" : text);
      socket.send(JSON.stringify(answer));
      if (admitted === "waiting") return;
      over();
      if (admitted === null) socket.close(4401, "not let in");
      else welcomed(admitted);
    };
    socket.on("message", hear);
    socket.on("close", over);
    socket.on("error", () => socket.terminate());
  }

  return { receive };
}

/** By which ticket a page is in. */
export type Admitted = Pick<Ticket, "id" | "scope">;

interface Step {
  readonly answer: object;
  /** Null when the page is not let in. */
  readonly admitted: Admitted | "waiting" | null;
}

/** The host's part of one entry: told each text of the page, says what to answer. */
function entrySteps(gate: Gate): (text: string) => Step {
  const notLetIn: Step = { answer: { unknown: true }, admitted: null };
  let wanted: { readonly id: string; readonly proof: string } | null = null;

  function greet(text: string): Step {
    const hello = read(helloSchema, text);
    const ticket = hello === null ? null : gate.find(hello.ticket);
    if (hello === null || ticket === null) return notLetIn;
    const nonce = secret();
    const proofOf = (side: "host" | "page") =>
      proof(ticket.secret, proofText(side, ticket.id, hello.nonce, nonce));
    wanted = { id: ticket.id, proof: proofOf("page") };
    return { answer: { proof: proofOf("host"), nonce }, admitted: "waiting" };
  }

  return (text) => {
    if (wanted === null) return greet(text);
    const given = read(pageProofSchema, text);
    const admitted = given && isSame(given.proof, wanted.proof) ? gate.admit(wanted.id) : null;
    if (admitted === null) return notLetIn;
    const { scope, ticket } = admitted;
    const id = ticket?.id ?? wanted.id;
    return { answer: ticket === null ? { scope } : { ticket }, admitted: { id, scope } };
  };
}

function read<Content>(schema: z.ZodType<Content>, text: string): Content | null {
  try {
    return schema.safeParse(JSON.parse(text)).data ?? null;
  } catch {
    return null;
  }
}
