import type { PhaseKind } from "../../phase/phase.ts";

/** What the later of two phases is meant to do to the rate. */
export type Wanted = "up" | "down" | "held";

/**
 * What is wanted of the rate when one phase follows another. A program raises it above baseline; taken away,
 * the rate is expected to fall, which is what a reversal shows; cues that thin out and stop should leave it
 * where it is. A step back from thinner cues to the program is meant to raise it.
 *
 * Example: wantedOf("intervention", "fading") // "held"
 */
export function wantedOf(from: PhaseKind, to: PhaseKind): Wanted {
  if (to === "baseline") return from === "baseline" ? "held" : "down";
  if (from === "baseline") return "up";
  return to === "intervention" ? "up" : "held";
}
