import type { Student } from "../../../shared/roster/roster.ts";
import type { KeptMark, SeatCarrier, SeatStanding } from "../../../shared/seats/message.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import type { SeatLine } from "../../seats/room.ts";
import type { SeatRow } from "../../store/seats/seats.ts";

/** A device that has joined as a seat. */
export interface Device {
  readonly line: SeatLine;
  seat: SeatRow;
  /** Whose it is, while that student is in use. */
  student: Pick<Student, "id" | "groupId"> | null;
  carriers: readonly SeatCarrier[];
  heardMonotonicMs: number;
  asleep: boolean;
  /** The session that had ended when it joined: it had no part in that one. */
  readonly cameAfter: string | null;
  /** What it was told last, so that it hears of changes only. */
  told: string;
}

/** What the teacher sees of one device. */
export interface DeviceStanding {
  readonly joined: boolean;
  readonly asleep: boolean;
  readonly carriers: Device["carriers"];
  readonly missed: readonly number[];
}

export interface ToldState {
  readonly is: SeatStanding;
  readonly session: string | null;
  readonly points?: number;
}

/** Tells a device where it stands, unless it knows. */
export function tellState(device: Device, state: ToldState): void {
  const told = JSON.stringify(state);
  if (told === device.told) return;
  device.told = told;
  device.line.tell({ kind: "state", ...state });
}

/** Tells a device who it is: never whose. */
export function tellSeat({ line, seat }: Device): void {
  const { number, language, look } = seat;
  line.tell({ kind: "seat", number, language, look });
}

/** A student's answers, by cue; one that was taken back is named too. */
export function keptMarks(state: SessionState, studentId: string): KeptMark[] {
  return [...(state.marks.get(studentId) ?? [])]
    .filter(([, { way }]) => way !== "paper")
    .map(([cue, { value, late }]) => ({ cue, value, late }));
}
