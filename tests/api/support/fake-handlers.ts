import type { CallContext, Handlers } from "../../../electron/services/base/handlers.ts";
import { Missing, Refusal } from "../../../electron/services/base/refusal.ts";
import { procedures } from "../../../shared/api/procedures.ts";
import type { SessionEvent } from "../../../shared/session/event.ts";

export const sessionId = "01890a5d-ac96-774b-bcce-b302099a8057";
export const groupId = "01890a5d-ac96-774b-bcce-b302099a8058";

/** A name that must turn up in no log. */
export const privateName = "Quillon Brambleby";

/** Any of the real interface; the rest of the procedures is missing. */
export type SomeHandlers = { readonly [Subject in keyof Handlers]?: Partial<Handlers[Subject]> };

export function handlersWith(some: SomeHandlers): Handlers {
  const subjects = Object.entries(procedures).map(([subject, names]) => {
    const given = new Map(Object.entries(some)).get(subject) ?? {};
    const missing = () => {
      throw new Missing("procedure");
    };
    const functions = Object.keys(names).map((name) => [name, missing]);
    return [subject, { ...Object.fromEntries(functions), ...given }];
  });
  // Every name of the real declaration is there.
  return Object.fromEntries(subjects) as Handlers;
}

export function group(name: string) {
  return { id: groupId, name, target: "", isSample: false, archived: false, studentCount: 0 };
}

/** The n-th event of a session, with as much text as it may carry. */
export function event(seq: number): SessionEvent {
  return {
    stamp: { seq, atMs: seq, wallMs: 1_780_000_000_000 + seq, offsetMinutes: 60 },
    body: { kind: "note", text: "n".repeat(1_000) },
  };
}

/** An event log that grows, watched like the real one: replay after a number, then live. */
export function growingLog() {
  const events: SessionEvent[] = [];
  const waiting = new Set<() => void>();
  const ring = () => {
    for (const wake of [...waiting]) wake();
    waiting.clear();
  };
  const watchers = { open: 0, opened: 0, contexts: [] as CallContext[] };

  async function* watch(
    { after }: { readonly after: number },
    context: CallContext,
  ): AsyncGenerator<SessionEvent, void, undefined> {
    watchers.open += 1;
    watchers.opened += 1;
    watchers.contexts.push(context);
    const { signal } = context;
    signal.addEventListener("abort", ring);
    try {
      for (let place = after; !signal.aborted; ) {
        const next = events.find(({ stamp }) => stamp.seq > place);
        if (next === undefined) {
          await new Promise<void>((wake) => waiting.add(wake));
          continue;
        }
        yield next;
        place = next.stamp.seq;
        if (next.body.kind === "ended") return;
      }
    } finally {
      signal.removeEventListener("abort", ring);
      watchers.open -= 1;
    }
  }

  return {
    watch,
    watchers,
    append: (next: SessionEvent) => {
      events.push(next);
      ring();
    },
  };
}

/** Ways of answering, chosen by the name that `groups.create` is given. */
export const createGroup: Handlers["groups"]["create"] = ({ name }) => {
  switch (name) {
    case "taken":
      throw new Refusal("name-taken", "This name is taken. Choose another.", { name, nearest: 2 });
    case "gone":
      throw new Missing("group");
    case "broken":
      throw new Error(`cannot make ${privateName}`);
    case "misshapen":
      return { ...group(name), studentCount: 0.5 };
    default:
      return group(name);
  }
};
