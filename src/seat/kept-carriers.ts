import type { SeatCarrier } from "../../shared/seats/message.ts";

/** What was found at joining: by what this device can carry a cue, and the step of the tick's loudness. */
export interface TriedCarriers {
  readonly working: SeatCarrier[];
  readonly step: number;
}

/** It outlives a reload of the tab, and no more: the next class may use the device otherwise. */
const carriersKey = "pebblechime-carriers";
/** Not the list of the messages' file, which would bring the library of schemas onto the page. */
const all: readonly SeatCarrier[] = ["sign", "touch", "tick"];

export function keepCarriers({ working, step }: TriedCarriers): void {
  try {
    sessionStorage.setItem(carriersKey, JSON.stringify([step, working]));
  } catch {
    // Without storage a reload leaves the quiet sign.
  }
}

/** What is kept; the quiet sign alone where nothing is, or nothing that makes sense. */
export function keptCarriers(steps: number): TriedCarriers {
  try {
    const [step, kept]: unknown[] = JSON.parse(sessionStorage.getItem(carriersKey) || "[]");
    if (typeof step === "number" && Array.isArray(kept) && step >= 0 && step < steps) {
      const working = all.filter((each) => each === "sign" || kept.indexOf(each) >= 0);
      return { working, step: Math.floor(step) };
    }
  } catch {
    // As without.
  }
  return { working: ["sign"], step: 0 };
}
