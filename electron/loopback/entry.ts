import type { z } from "zod";
import {
  entryMs,
  helloSchema,
  longestEntryText,
  pageProofSchema,
  proofText,
  type Scope,
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
  function receive(socket: KnockingSocket, welcomed: (scope: Scope) => void): void {
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
      const { answer, scope } = step(text.length > longestEntryText ? "" : text);
      socket.send(JSON.stringify(answer));
      if (scope === "waiting") return;
      over();
      if (scope === null) socket.close(4401, "not let in");
      else welcomed(scope);
    };
    socket.on("message", hear);
    socket.on("close", over);
    socket.on("error", () => socket.terminate());
  }

  return { receive };
}

interface Step {
  readonly answer: object;
  /** What is open from now on; null when the page is not let in. */
  readonly scope: Scope | "waiting" | null;
}

/** The host's part of one entry: told each text of the page, says what to answer. */
export function entrySteps(gate: Gate): (text: string) => Step {
  const notLetIn: Step = { answer: { unknown: true }, scope: null };
  let wanted: { readonly id: string; readonly proof: string } | null = null;

  function greet(text: string): Step {
    const hello = read(helloSchema, text);
    const ticket = hello === null ? null : gate.find(hello.ticket);
    if (hello === null || ticket === null) return notLetIn;
    const nonce = secret();
    const proofOf = (side: "host" | "page") =>
      proof(ticket.secret, proofText(side, ticket.id, hello.nonce, nonce));
    wanted = { id: ticket.id, proof: proofOf("page") };
    return { answer: { proof: proofOf("host"), nonce }, scope: "waiting" };
  }

  return (text) => {
    if (wanted === null) return greet(text);
    const given = read(pageProofSchema, text);
    const admitted = given && isSame(given.proof, wanted.proof) ? gate.admit(wanted.id) : null;
    if (admitted === null) return notLetIn;
    const { scope, ticket } = admitted;
    return { answer: ticket === null ? { scope } : { ticket }, scope };
  };
}

function read<Content>(schema: z.ZodType<Content>, text: string): Content | null {
  try {
    return schema.safeParse(JSON.parse(text)).data ?? null;
  } catch {
    return null;
  }
}
