import type { MarkValue } from "../../../shared/session/event.ts";

/** How a mark stands in a box, as on the paper. */
export const signs: Readonly<Record<MarkValue, string>> = { on: "+", off: "–", none: "" };
