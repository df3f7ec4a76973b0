import type { Store } from "../../store/store.ts";
import type { Changes } from "../base/changes.ts";
import type { Handlers } from "../base/handlers.ts";
import { knownGroup } from "../base/known.ts";
import { Missing, Refusal } from "../base/refusal.ts";
import type { WallClock } from "../base/wall-clock.ts";
import { importStudents } from "./import-students.ts";
import { importSessions } from "./imports.ts";
import { recordings } from "./recordings.ts";
import { studentRecord } from "./student-record.ts";

/** Records going out and coming in, and sessions as sound. */
export function transferHandlers(
  store: Store,
  changes: Changes,
  clock: WallClock,
): Handlers["transfer"] {
  const recordCues = recordings(store);

  /** A large import or a recording takes seconds, in which no cue could be called. */
  function refuseDuringSession(): void {
    if (store.log.openSessionId() === null) return;
    throw new Refusal("session-running", "A session is still open. End it first, then try again.");
  }

  return {
    importSessions({ groupId, rows }) {
      knownGroup(store, groupId);
      refuseDuringSession();
      const done = importSessions(store, groupId, rows, clock);
      changes.publish("students", "groups", "sessions", "records", "phases");
      return done;
    },

    importStudents({ groupId, rows }) {
      knownGroup(store, groupId);
      const done = importStudents(store, groupId, rows, clock.wallMs());
      changes.publish("students", "groups", "records");
      return done;
    },

    imports: ({ groupId }) => store.imports.list(groupId),

    undoImport({ importId }) {
      refuseDuringSession();
      const undone = store.undoImport(importId);
      if (undone === null) throw new Missing("import");
      changes.publish("students", "groups", "sessions", "records", "phases");
      return {
        sessionsRemoved: undone.sessions,
        studentsRemoved: undone.students,
        phasesRemoved: undone.phases,
      };
    },

    studentRecord: ({ studentId, from }) => studentRecord(store, studentId, from, clock),

    recordCues(wanted) {
      refuseDuringSession();
      return recordCues(wanted);
    },
  };
}
