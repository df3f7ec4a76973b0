import type { MarkValue } from "../../../shared/session/event.ts";

/** What stands in a box: a mark, none, or that the student was not there. */
export type BoxStanding = MarkValue | "away";

/** How it stands there: marks as on the paper, and who was away with a stroke through the box. */
export const signs: Readonly<Record<BoxStanding, string>> = {
  on: "+",
  off: "–",
  none: "",
  away: "⁄",
};
