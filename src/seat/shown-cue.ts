/** The cue that a seat's page shows and asks about. */
export interface ShownCue {
  readonly session: string;
  readonly cue: number;
}

/** It outlives a reload of the tab. */
const shownKey = "pebblechime-shown";

export function keepShown({ session, cue }: ShownCue): void {
  try {
    sessionStorage.setItem(shownKey, JSON.stringify([session, cue]));
  } catch {
    // Without storage a reload takes the question away, and its cue is answered on the card.
  }
}

export function keptShown(): ShownCue | null {
  try {
    const [session, cue]: unknown[] = JSON.parse(sessionStorage.getItem(shownKey) || "[]");
    return typeof session === "string" && typeof cue === "number" ? { session, cue } : null;
  } catch {
    return null;
  }
}
