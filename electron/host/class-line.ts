import type { Ticket } from "../../shared/api/entry.ts";
import { procedures } from "../../shared/api/procedures.ts";
import type { Session, SessionListItem } from "../../shared/api/sessions.ts";
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
 * back is a mark too), one student's own purse of points and what it saves for, timers, what the screen's
 * looks need, and the way out.
 *
 * @param handlers the whole API
 * @returns makes one line's API from what the host does when the way out was taken, and the ticket that it
 *   gives then, if it has tickets
 */
export function classLines(handlers: Handlers): (left: () => Ticket | null) => Handlers {
  const present = presentSession(handlers);
  return (left) => onlyOpen({ ...watching(handlers, present), ...wayOut(handlers, left) });
}

/** Which session the screen is about: the one that is open, or the last one while its last marks come in. */
function presentSession({ sessions }: Handlers) {
  let last: { readonly id: string; readonly isOwn: boolean } | null = null;
  const open = async (context: CallContext): Promise<SessionListItem | null> => {
    const session = await sessions.open(undefined, context);
    if (session !== null) last = { id: session.id, isOwn: session.plan.cueing === "own" };
    return session;
  };
  return {
    open,
    /**
     * Refuses every other session; tells whether in this one each student is asked alone, on their own device:
     * who is asked when is nothing for this screen.
     */
    async check(sessionId: string, context: CallContext): Promise<{ isOwn: boolean }> {
      await open(context);
      if (sessionId !== last?.id) throw refusal();
      return last;
    },
  };
}
type PresentSession = ReturnType<typeof presentSession>;

type Act<Input, Answer> = (input: Input, context: CallContext) => Answer;
interface OfSession {
  readonly sessionId: string;
}

function watching(
  { app, chimes, sessions, practice, points, teams }: Handlers,
  { open, check }: PresentSession,
): Opened {
  /** The same procedure, for the present session alone. */
  const ofPresent =
    <Input extends OfSession, Answer>(act: Act<Input, Answer>) =>
    async (input: Input, context: CallContext): Promise<Awaited<Answer>> => {
      await check(input.sessionId, context);
      return await act(input, context);
    };
  /** And only where the whole class is asked at once. */
  const ofSharedCues =
    <Input extends OfSession, Answer>(act: Act<Input, Answer>) =>
    async (input: Input, context: CallContext): Promise<Awaited<Answer>> => {
      if ((await check(input.sessionId, context)).isOwn) throw refusal();
      return await act(input, context);
    };

  async function inSight(studentId: string, context: CallContext): Promise<void> {
    const board = await points.board(undefined, context);
    if (!board?.students.some(({ id }) => id === studentId)) throw refusal();
  }
  return {
    app: {
      // Whom the school has named for worries is for adults.
      settings: async (input, context) => ({
        ...(await app.settings(input, context)),
        worryContact: "",
      }),
      changes: app.changes,
      // Where the records lie is nothing for this screen.
      info: async (input, context) => ({ ...(await app.info(input, context)), dataFolder: "" }),
    },
    // The sound of a cue, when this is the screen that gives it.
    chimes: { sound: chimes.sound },
    sessions: {
      async open(_, context) {
        const session = await open(context);
        if (session === null) return null;
        const counts =
          session.plan.cueing === "own" ? { cuesDelivered: 0, studentsRecorded: 0 } : {};
        return { ...session, ...counts, ...withoutSeed(session), leftOutBecause: null };
      },
      async get(input, context) {
        await check(input.sessionId, context);
        const { session, students } = await sessions.get(input, context);
        return {
          session: { ...session, ...withoutSeed(session) },
          students: students.map((student) => ({ ...student, target: "", holdGoal: null })),
          leftOutBecause: null,
        };
      },
      async *watch(input, context) {
        const { isOwn } = await check(input.sessionId, context);
        const kinds = isOwn ? kindsOfOwn : shownKinds;
        for await (const event of sessions.watch(input, context)) {
          if (kinds.includes(event.body.kind)) yield event;
        }
      },
      clock: sessions.clock,
      async *cueCalls(input, context) {
        await check(input.sessionId, context);
        yield* sessions.cueCalls(input, context);
      },
      cueMeans: ofPresent(sessions.cueMeans),
      leaveCues: ofPresent(sessions.leaveCues),
      cueDelivered: ofPresent(sessions.cueDelivered),
      cueUndelivered: ofPresent(sessions.cueUndelivered),
      mark: ofSharedCues(sessions.mark),
      sayAway: ofSharedCues(sessions.sayAway),
    },
    points: {
      board: points.board,
      // One purse at a time, of a student of the group that sits.
      async ownPurse(input, context) {
        await inSight(input.studentId, context);
        return points.ownPurse(input, context);
      },
      async saveFor(input, context) {
        await inSight(input.studentId, context);
        return points.saveFor(input, context);
      },
    },
    practice: {
      // The sentences that the class judges together.
      async examples(input, context) {
        const session = await open(context);
        if (session?.kind !== "practice" || session.groupId !== input.groupId) throw refusal();
        return practice.examples(input, context);
      },
    },
    teams: {
      // Names of teams, and met or not yet; no student's name and no number.
      onClassScreen: ofPresent(teams.onClassScreen),
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
  "said-away",
  "set-aside",
  "back",
  "paused",
  "resumed",
  "ended",
];

/** Kinds that tell when somebody was asked, or what was answered. */
const ofCues: readonly SessionEventBody["kind"][] = [
  "announced",
  "delivered",
  "undelivered",
  "mark",
  "said-away",
];

/** What it shows of a session of own cues: no cue, and no answer to one. */
const kindsOfOwn = shownKinds.filter((kind) => !ofCues.includes(kind));

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
