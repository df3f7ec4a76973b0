import type { SessionEvent } from "../../../shared/session/event.ts";
import type { Conductor } from "../live/conductor.ts";
import type { SessionFollower } from "../live/conductor-desk.ts";
import type { CalledCues } from "./called-cues.ts";
import type { Device } from "./device.ts";
import type { MissedCues } from "./missed-cues.ts";
import type { RoomNow } from "./room-now.ts";
import type { SeatAnswers } from "./seat-answers.ts";
import type { ShownCues } from "./shown-cues.ts";
import type { SeatTelling } from "./telling.ts";

interface SeatsFollowerOptions {
  readonly running: Pick<Conductor, "liveId">;
  readonly devices: ReadonlyMap<string, Device>;
  readonly now: Pick<RoomNow, "follow" | "sessionId">;
  readonly shown: Pick<ShownCues, "begin">;
  readonly cues: CalledCues;
  readonly missed: Pick<MissedCues, "whyUnshown">;
  readonly answers: Pick<SeatAnswers, "settle">;
  readonly telling: Pick<SeatTelling, "tellSoon">;
  /** Who is cued may be another. */
  readonly changed: () => void;
  /** Does something once what caused it is on the disk. */
  readonly after: (work: () => void) => void;
}

/** Who is cued may change with what the log says of the session and of who is there. */
const whoIsCued: readonly string[] = ["begun", "paused", "resumed", "ended", "set-aside", "back"];

/** What devices follow of the live session: its cues, and what the log says of it. */
export function seatsFollower(options: SeatsFollowerOptions): SessionFollower {
  const { running, devices, now, shown, cues, missed, answers, telling, changed, after } = options;

  function written(id: string, events: readonly SessionEvent[]): void {
    const begins = events.some(({ body }) => body.kind === "begun" || body.kind === "resumed");
    if (begins || running.liveId() === id) {
      if (now.follow(id, devices.keys())) cues.clear();
      shown.begin(id);
    }
    if (id !== now.sessionId()) return;
    for (const { body } of events) {
      if (body.kind === "delivered" || body.kind === "undelivered") {
        answers.settle(body.cue, body.studentId);
      }
    }
    if (events.some(({ body }) => body.kind !== "announced")) telling.tellSoon();
    if (events.some(({ body }) => whoIsCued.includes(body.kind))) after(changed);
  }

  return {
    called: cues.called,
    calledOwn: cues.calledOwn,
    unshown(_id, studentId, cue) {
      cues.forget(studentId, cue);
      return missed.whyUnshown(studentId, cue);
    },
    written,
  };
}
