import type { KeptMark, ToSeat } from "../../../shared/seats/message.ts";
import { cuesOf } from "../../../shared/session/state.ts";
import type { SeatWord } from "../../seats/room.ts";
import type { Conductor } from "../live/conductor.ts";
import { type Device, keptMarks } from "./device.ts";
import type { CuedStudent, RoomNow } from "./room-now.ts";
import type { SeatMarks } from "./seat-marks.ts";
import { nameOnLine } from "./session-for-seats.ts";
import type { ShownCues } from "./shown-cues.ts";

type MarkWord = Extract<SeatWord, { readonly kind: "mark" }>;
type AwayWord = Extract<SeatWord, { readonly kind: "away" }>;

/** What a device said in answer to a cue. */
interface Answer {
  readonly device: Device;
  readonly word: MarkWord | AwayWord;
}

interface SeatAnswersOptions {
  readonly running: Pick<Conductor, "stateOf">;
  readonly marks: Pick<SeatMarks, "keep">;
  readonly now: RoomNow;
  readonly shown: Pick<ShownCues, "due" | "wasTold">;
  /** Does something once what caused it is on the disk. */
  readonly after: (work: () => void) => void;
}

/** Takes devices' answers, each for its own student, and tells a device what became of its own. */
export function seatAnswers({ running, marks, now, shown, after }: SeatAnswersOptions) {
  /** Answers to a cue whose delivery is not in the log yet. */
  let held: Answer[] = [];

  function hold(answer: Answer): void {
    const { device, word } = answer;
    held = held.filter((each) => each.device !== device || each.word.cue !== word.cue);
    held.push(answer);
  }

  /** How a cue stands that this device may answer; null when it was not asked, or its cue reached nobody. */
  function standingFor(device: Device, cue: number, cued: CuedStudent) {
    // Of cues before this run of the app nobody knows any more which seat was told.
    const name = now.nameFor(device, cue);
    if (shown.due(name) !== null && !shown.wasTold(name, device.seat.id)) return null;
    const standing = cuesOf(cued.state, cued.studentId).get(cue)?.standing ?? null;
    // If it is in doubt whether a student's own cue was shown, an answer says so: the session's rules decide.
    return standing === "undelivered" && !cued.state.isOwn ? null : standing;
  }

  function answer(device: Device, word: Answer["word"]): void {
    const cued = now.cuedBy(device.student);
    if (cued === null || nameOnLine(cued.session.id) !== word.session) {
      tellUnkept(device, word, "too-late");
      return;
    }
    const standing = standingFor(device, word.cue, cued);
    if (standing === null) tellUnkept(device, word, "no-cue");
    else if (standing === "announced") hold({ device, word });
    else if (word.kind === "away") keepAway(device, word, cued);
    else keepMark(device, word, cued);
  }

  function keepAway(device: Device, word: AwayWord, { session, studentId }: CuedStudent): void {
    const { cue, away } = word;
    marks.keep(session.id, { kind: "say-away", studentId, cue, away }, (outcome) => {
      if (outcome === "kept") tellKept(device, word, [takenBack(cue)]);
      else if (outcome !== "failed") tellUnkept(device, word, "too-late");
    });
  }

  function keepMark(device: Device, word: MarkWord, { session, studentId }: CuedStudent): void {
    const { cue, value } = word;
    marks.keep(session.id, { kind: "mark", studentId, cue, value, way: "seat" }, (outcome) => {
      if (outcome === "kept") {
        const kept = keptMarks(running.stateOf(session.id), studentId);
        const own = kept.filter((each) => each.cue === cue);
        // Taking back what was never kept leaves no trace in the log.
        tellKept(device, word, own.length > 0 ? own : [takenBack(cue)]);
      } else if (outcome !== "failed") {
        tellUnkept(device, word, outcome.refused === "cue-unknown" ? "no-cue" : "too-late");
      }
    });
  }

  return {
    answer,

    /** The log says what became of a cue, or of a student's own: the answers that waited for it are taken. */
    settle(cue: number, owner: string | undefined): void {
      const isIt = ({ device, word }: Answer) =>
        word.cue === cue && (owner === undefined || device.student?.id === owner);
      const settled = held.filter(isIt);
      held = held.filter((each) => !isIt(each));
      for (const { device, word } of settled) after(() => answer(device, word));
    },
  };
}
export type SeatAnswers = ReturnType<typeof seatAnswers>;

/** Of this cue nothing is kept. */
const takenBack = (cue: number): KeptMark => ({ cue, value: "none", late: false });

function tellKept({ line }: Device, { session }: Answer["word"], marks: KeptMark[]): void {
  line.tell({ kind: "kept", session, marks });
}

function tellUnkept(
  { line }: Device,
  { session, cue }: Answer["word"],
  why: Extract<ToSeat, { readonly kind: "unkept" }>["why"],
): void {
  line.tell({ kind: "unkept", session, cue, why });
}
