import type { Ticket } from "../../shared/api/entry.ts";
import { procedures } from "../../shared/api/procedures.ts";
import type { Session } from "../../shared/api/sessions.ts";
import type { SessionEventBody } from "../../shared/session/event.ts";
import type { CallContext, Handlers } from "../services/base/handlers.ts";
import { Refusal } from "../services/base/refusal.ts";

/** What of the API a class screen's line opens; a subject or a name that is missing here is refused. */
type Opened = { readonly [Subject in keyof Handlers]?: Partial<Handlers[Subject]> };

/**
 * Makes the API of lines that belong to the class's own screen. It is a list of what is open; everything
 * else that is declared, now or later, is refused here, whatever page asks: children sit at that screen,
 * and an address or a program of theirs gets no further than its page does.
 *
 * Open are: watching the present session, the clock, taking and reporting its cues, its marks (to take one
 * back is a mark too), what the screen's looks need, and the way out.
 *
 * @param handlers the whole API
 * @returns makes one line's API from what the host does when the way out was taken, and the ticket that it
 *   gives then, if it has tickets
 */
export function classLines(handlers: Handlers): (left: () => Ticket | null) => Handlers {
  const isPresent = presentSession(handlers);
  return (left) => onlyOpen({ ...watching(handlers, isPresent), ...wayOut(handlers, left) });
}

/** Refuses every session but the one that is open, or was the last open one while its last marks come in. */
function presentSession({ sessions }: Handlers) {
  let lastId: string | null = null;
  return async (sessionId: string, context: CallContext): Promise<void> => {
    const open = await sessions.open(undefined, context);
    if (open !== null) lastId = open.id;
    if (sessionId !== lastId) throw refusal();
  };
}

function watching(
  { app, sessions, practice }: Handlers,
  check: (sessionId: string, context: CallContext) => Promise<void>,
): Opened {
  return {
    app: {
      settings: app.settings,
      changes: app.changes,
      // Where the records lie is nothing for this screen.
      info: async (input, context) => ({ ...(await app.info(input, context)), dataFolder: "" }),
    },
    sessions: {
      async open(input, context) {
        const open = await sessions.open(input, context);
        return open === null ? null : { ...open, ...withoutSeed(open) };
      },
      async get(input, context) {
        await check(input.sessionId, context);
        const { session, students } = await sessions.get(input, context);
        return {
          session: { ...session, ...withoutSeed(session) },
          students: students.map((student) => ({ ...student, target: "" })),
          leftOutBecause: null,
        };
      },
      async *watch(input, context) {
        await check(input.sessionId, context);
        for await (const event of sessions.watch(input, context)) {
          if (shownKinds.includes(event.body.kind)) yield event;
        }
      },
      clock: sessions.clock,
      async *cueCalls(input, context) {
        await check(input.sessionId, context);
        yield* sessions.cueCalls(input, context);
      },
      async cueBegan(input, context) {
        await check(input.sessionId, context);
        return sessions.cueBegan(input, context);
      },
      async cueFailed(input, context) {
        await check(input.sessionId, context);
        return sessions.cueFailed(input, context);
      },
      async mark(input, context) {
        await check(input.sessionId, context);
        return sessions.mark(input, context);
      },
    },
    practice: {
      // The sentences that the class judges together.
      async examples(input, context) {
        const open = await sessions.open(undefined, context);
        if (open?.kind !== "practice" || open.groupId !== input.groupId) throw refusal();
        return practice.examples(input, context);
      },
    },
  };
}

function wayOut({ classScreen }: Handlers, left: () => Ticket | null): Opened {
  return {
    classScreen: {
      async leave(input, context) {
        await classScreen.leave(input, context);
        return { ticket: left() };
      },
    },
  };
}

/** With the seed every moment to come could be computed; only a practice's sentences are drawn in sight. */
function withoutSeed({ kind, seed }: Pick<Session, "kind" | "seed">): Pick<Session, "seed"> {
  return { seed: kind === "practice" ? seed : "kept-back" };
}

/** What the screen shows. What an adult saw of a child, noted or decided is not for it. */
const shownKinds: readonly SessionEventBody["kind"][] = [
  "begun",
  "announced",
  "delivered",
  "undelivered",
  "mark",
  "set-aside",
  "back",
  "paused",
  "resumed",
  "ended",
];

function onlyOpen(opened: Opened): Handlers {
  const subjects = Object.entries(procedures).map(([subject, names]) => {
    const refused = Object.keys(names).map((name) => [
      name,
      () => {
        throw refusal();
      },
    ]);
    const given = new Map<string, object>(Object.entries(opened)).get(subject) ?? {};
    return [subject, { ...Object.fromEntries(refused), ...given }];
  });
  // Every name that is declared is there.
  return Object.fromEntries(subjects) as Handlers;
}

function refusal(): Refusal {
  return new Refusal("class-screen", "The class screen may not ask for this. Leave it first.");
}
