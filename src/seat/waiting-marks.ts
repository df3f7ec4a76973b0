import { seatKey } from "./seat-key.ts";

/** An answer that the class's computer has not confirmed yet. */
export interface WaitingMark {
  readonly session: string;
  readonly cue: number;
  readonly value: "on" | "off" | "none" | "away";
}

/** Answers kept at most: far more than one session has cues. */
const most = 100;

function isMark(each: unknown): each is WaitingMark {
  if (typeof each !== "object" || each === null) return false;
  const { session, cue, value } = each as Record<string, unknown>;
  return (
    typeof session === "string" &&
    typeof cue === "number" &&
    (value === "on" || value === "off" || value === "none" || value === "away")
  );
}

/**
 * Answers that wait on this device, by session and cue, so that a lost line or a reload loses none. A full or
 * forbidden storage leaves them in memory.
 */
export function waitingMarks(code: string) {
  const key = seatKey("waiting", code);
  let marks: WaitingMark[] = [];
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(key) || "[]");
    if (Array.isArray(kept)) marks = kept.filter(isMark).slice(-most);
  } catch {
    marks = [];
  }

  function save(): void {
    try {
      if (marks.length === 0) localStorage.removeItem(key);
      else localStorage.setItem(key, JSON.stringify(marks));
    } catch {
      // In memory they are kept all the same.
    }
  }

  const without = (session: string, cue: number) =>
    marks.filter((each) => each.session !== session || each.cue !== cue);

  return {
    add(mark: WaitingMark): void {
      marks = without(mark.session, mark.cue).concat([mark]).slice(-most);
      save();
    },
    settle(session: string, cue: number): void {
      marks = without(session, cue);
      save();
    },
    all: (): readonly WaitingMark[] => marks,
    /** What waits for one cue; null when nothing does. */
    valueOf(session: string, cue: number): WaitingMark["value"] | null {
      const found = marks.filter((each) => each.session === session && each.cue === cue)[0];
      return found === undefined ? null : found.value;
    },
  };
}
