import type { Card, RefusedCard, Work } from "../../../shared/api/records.ts";
import type { Session } from "../../../shared/api/sessions.ts";
import { mostCues } from "../../../shared/plan/most-cues.ts";
import {
  awayBoxes,
  cardChanges,
  cardOf,
  checkCard,
  type PaperCard,
} from "../../../shared/record/boxes.ts";
import { withoutEmptyEnd } from "../../../shared/record/card-text.ts";
import { correctionsOf } from "../../../shared/record/corrections.ts";
import { mostLikelyCues } from "../../../shared/schedule/most-likely-cues.ts";
import type { CardEvent } from "../../../shared/session/decide.ts";
import type { MarkWay } from "../../../shared/session/event.ts";
import {
  deliveredCount,
  deliveredCuesOf,
  type SessionState,
} from "../../../shared/session/state.ts";
import type { SessionLog } from "../../store/session-log.ts";
import type { Store } from "../../store/store.ts";
import type { Changes } from "../base/changes.ts";
import type { Handlers } from "../base/handlers.ts";
import { studentOfSession } from "../base/known.ts";
import { Missing, Refusal } from "../base/refusal.ts";
import { todayOf, type WallClock } from "../base/wall-clock.ts";
import { cardStacks } from "./card-stacks.ts";
import type { Conductor } from "./conductor.ts";
import { enterHeld } from "./held.ts";
import { plannedCues } from "./live-session.ts";
import { sessionStudents } from "./session-summary.ts";

interface Around {
  readonly changes: Changes;
  readonly clock: WallClock;
  /** Writes to the log, with what follows from it in the ledger. */
  readonly appendAll: SessionLog["appendAll"];
}

/** Cards and work typed in after a session, and whole sessions that were held without the app. */
export function recordHandlers(
  store: Store,
  conductor: Conductor,
  { changes, clock, appendAll }: Around,
): Handlers["records"] {
  function open(sessionId: string): { session: Session; state: SessionState } {
    const session = store.sessions.get(sessionId);
    if (session === null) throw new Missing("session");
    return { session, state: conductor.stateOf(sessionId) };
  }

  function openEnded(sessionId: string): { session: Session; state: SessionState } {
    const opened = open(sessionId);
    if (opened.state.status === "ended") return opened;
    throw new Refusal("session-running", "End the session before entering its records.");
  }

  const nameIn = (session: Session, studentId: string): string =>
    studentOfSession(store, session, studentId).name;

  const stacks = cardStacks(store);

  return {
    cards({ sessionId }) {
      const { session, state } = open(sessionId);
      const students = sessionStudents(store, session);
      return {
        session,
        cuesDelivered: deliveredCount(state),
        boxesOnCard: boxesOnCard(session, state, students),
        ...stacks.codesOf(session),
        rows: students.map((student) => {
          const planned = plannedCues(session, student.id).length;
          return {
            student,
            cues: deliveredCuesOf(state, student.id).length,
            setAside: state.setAside.has(student.id),
            card: toCard(cardOf(state, student.id, planned)),
            awayBoxes: awayBoxes(state, student.id, planned),
            corrections: state.corrections.get(student.id) ?? 0,
          };
        }),
        work: [...state.work.values()].map(({ kind: _, ...work }) => work),
      };
    },

    saveCards({ sessionId, cards }) {
      const { session, state } = openEnded(sessionId);
      const boxes = boxesOnCard(session, state, sessionStudents(store, session));
      const changes: CardEvent[] = [];
      const refused: RefusedCard[] = [];
      // A stranger among the students means that the whole request is about something else.
      for (const { studentId } of cards) nameIn(session, studentId);
      for (const { studentId, card } of newestOfEach(cards)) {
        const planned = plannedCues(session, studentId).length;
        const ofStudent = cardChanges(state, studentId, card, planned, cardWay(session));
        const size = { have: marksOn(card), most: boxes };
        const problem = checkCard(card, boxes);
        if (problem !== null) refused.push({ studentId, code: problem.code, ...size });
        else if (ofStudent.length > 0 && state.setAside.has(studentId)) {
          refused.push({ studentId, code: "student-set-aside", ...size });
        } else changes.push(...ofStudent);
      }
      const written = conductor.command(sessionId, { kind: "enter-cards", changes });
      return { written: written.length, refused };
    },

    corrections({ sessionId, studentId }) {
      const { session } = open(sessionId);
      nameIn(session, studentId);
      const planned = plannedCues(session, studentId).length;
      return correctionsOf(store.log.read(sessionId, 0), studentId, planned);
    },

    sessionsOfCode: ({ code }) => stacks.find(code, todayOf(clock)),

    enterHeld(input) {
      const session = enterHeld(store, appendAll, input, clock.wallMs());
      changes.publish("sessions", "records", "points");
      return session;
    },

    saveWork({ sessionId, work }) {
      const { session } = openEnded(sessionId);
      const newest = newestOfEach(work);
      for (const entry of newest) checkWork(entry, nameIn(session, entry.studentId));
      const written = conductor.command(sessionId, { kind: "enter-work", work: newest });
      return { written: written.length };
    },

    saveObserved({ sessionId, observer, marks }) {
      const { session } = openEnded(sessionId);
      for (const studentId of new Set(marks.map((mark) => mark.studentId))) {
        nameIn(session, studentId);
      }
      const written = conductor.command(sessionId, { kind: "enter-observed", observer, marks });
      return { written: written.length };
    },
  };
}

/** A device's answer comes by itself: what is typed in of such a session stood on a card beside it. */
const cardWay = ({ plan }: Session): MarkWay =>
  plan.recording === "seat" ? "paper" : plan.recording;

/** Room for nearly every session of the plan, and always for what came to anybody in this one. */
function boxesOnCard(
  session: Session,
  state: SessionState,
  students: readonly { readonly id: string }[],
): number {
  const heard = students.map(({ id }) => deliveredCuesOf(state, id).length);
  return Math.min(mostCues, Math.max(1, ...heard, mostLikelyCues(session.plan)));
}

function toCard(card: ReturnType<typeof cardOf>): Card {
  return card.kind === "totals" ? card : { kind: "boxes", boxes: card.boxes.slice(0, mostCues) };
}

/** A student named twice in one request: the later entry is the one meant. */
function newestOfEach<Entry extends { readonly studentId: string }>(
  entries: readonly Entry[],
): Entry[] {
  return [...new Map(entries.map((entry) => [entry.studentId, entry])).values()];
}

/** How far a card is filled: up to its last mark, or all that its totals say. */
const marksOn = (card: PaperCard): number =>
  card.kind === "totals" ? card.on + card.off : withoutEmptyEnd(card.boxes).length;

function checkWork({ studentId, completed, correct }: Work, student: string): void {
  if (correct === null || correct <= completed) return;
  throw new Refusal(
    "total-too-many",
    `${student} cannot have ${correct} right of ${completed} completed. Correct one of the two numbers.`,
    { studentId, student, have: correct, most: completed },
  );
}
