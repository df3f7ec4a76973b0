import { seatKey } from "./seat-key.ts";

/** The cue that a seat's page shows and asks about. */
export interface ShownCue {
  readonly session: string;
  readonly cue: number;
}

/** Keeps the cue that is asked about, so that the question outlives a reload, and a tab that a child closed. */
export function shownCue(code: string) {
  const key = seatKey("shown", code);
  return {
    keep({ session, cue }: ShownCue): void {
      try {
        localStorage.setItem(key, JSON.stringify([session, cue]));
      } catch {
        // Without storage a reload takes the question away, and its cue is answered on the card.
      }
    },
    /** No session asks any more. */
    forget(): void {
      try {
        localStorage.removeItem(key);
      } catch {
        // Nothing was kept.
      }
    },
    kept(): ShownCue | null {
      try {
        const [session, cue]: unknown[] = JSON.parse(localStorage.getItem(key) || "[]");
        return typeof session === "string" && typeof cue === "number" ? { session, cue } : null;
      } catch {
        return null;
      }
    },
  };
}
