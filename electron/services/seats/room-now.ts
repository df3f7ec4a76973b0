import type { Session } from "../../../shared/api/sessions.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import type { SeatRow } from "../../store/seats/seats.ts";
import type { Store } from "../../store/store.ts";
import type { Conductor } from "../live/conductor.ts";
import type { Device } from "./device.ts";
import { cuesStudents } from "./session-for-seats.ts";
import { cueName } from "./shown-cues.ts";

/** The session that devices follow. */
export interface PresentSession {
  readonly session: Session;
  readonly state: SessionState;
}

/** The present session, and a student whom it cues. */
export interface CuedStudent extends PresentSession {
  readonly studentId: string;
}

/** What is so now: which session devices follow, whom it cues, and which seats joined in it. */
export function roomNow(
  store: Pick<Store, "sessions" | "students">,
  running: Pick<Conductor, "liveId" | "stateOf">,
) {
  /** An ended session still takes its last answers. */
  let sessionId: string | null = running.liveId();
  /** A session's facts never change. */
  let facts: Session | null = null;
  /** The seats that joined in this session: whoever has none records in another way, and hears the class's cue. */
  let here = new Set<string>();

  function present(): PresentSession | null {
    if (sessionId === null) return null;
    if (facts?.id !== sessionId) facts = store.sessions.get(sessionId);
    return facts === null ? null : { session: facts, state: running.stateOf(facts.id) };
  }

  /** Whose cues a device shows: its student's own, or the class's (null). */
  const cueOwner = ({ student }: Device): string | null =>
    present()?.state.isOwn ? (student?.id ?? "") : null;

  return {
    present,
    cueOwner,
    sessionId: () => sessionId,

    /** The cue of this number as a device's student has it. */
    nameFor: (device: Device, cue: number): string => cueName(cue, cueOwner(device)),

    /** The present session as a student of it is cued by it, or null. */
    cuedBy(student: Device["student"]): CuedStudent | null {
      const now = present();
      if (now === null || student === null || !cuesStudents(now.session)) return null;
      if (now.session.groupId !== student.groupId || now.state.setAside.has(student.id)) {
        return null;
      }
      return { ...now, studentId: student.id };
    },

    /** Whose seat it is, while that student is in use. */
    studentInUse({ studentId }: SeatRow): Device["student"] {
      const student = studentId === null ? null : store.students.get(studentId);
      return student === null || student.archived ? null : student;
    },

    /** Students or groups changed, and the session may be gone with them: its facts are looked up anew. */
    forgetFacts(): void {
      facts = null;
    },

    /** Follows this session from now on; true when it is another one. */
    follow(id: string, joinedIds: Iterable<string>): boolean {
      if (id === sessionId) return false;
      sessionId = id;
      here = new Set(joinedIds);
      return true;
    },

    joinedHere: (seatId: string): boolean => here.has(seatId),
    noteJoined(seatId: string): void {
      here.add(seatId);
    },
    noteFreed(seatId: string): void {
      here.delete(seatId);
    },
  };
}
export type RoomNow = ReturnType<typeof roomNow>;
