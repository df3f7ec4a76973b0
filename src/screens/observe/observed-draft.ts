import { markFor } from "../../../shared/record/mark-keys.ts";
import type { SeenValue } from "../../../shared/session/event.ts";

/** What was typed on one observer's sheet and lies over what is saved, by `student/cue`. */
export interface ObservedDraft {
  readonly seen: ReadonlyMap<string, SeenValue>;
  /** Keys that mean nothing, kept in sight at their box. */
  readonly bad: ReadonlyMap<string, string>;
}

export const emptyDraft: ObservedDraft = { seen: new Map(), bad: new Map() };

export const boxKey = (studentId: string, cue: number): string => `${studentId}/${cue}`;

/** What one key means on an observation sheet: as on a card, and a full stop for "couldn't see". */
export function seenFor(key: string): SeenValue | null {
  if (key === "." || key === "_") return "unseen";
  const mark = markFor(key);
  return mark === "on" || mark === "off" ? mark : null;
}

/** The draft after one key in one box. */
export function seenTyped(draft: ObservedDraft, box: string, key: string): ObservedDraft {
  const value = seenFor(key);
  const bad = new Map(draft.bad);
  if (value === null) {
    bad.set(box, key);
    return { ...draft, bad };
  }
  bad.delete(box);
  return { seen: new Map(draft.seen).set(box, value), bad };
}

/**
 * The draft after a box was emptied. What is saved already cannot become nothing, because the log only
 * grows: it becomes "couldn't see", which counts for nothing either.
 */
export function seenEmptied(draft: ObservedDraft, box: string, isSaved: boolean): ObservedDraft {
  const seen = new Map(draft.seen);
  const bad = new Map(draft.bad);
  bad.delete(box);
  if (isSaved) seen.set(box, "unseen");
  else seen.delete(box);
  return { seen, bad };
}

/** The boxes that differ from what is saved. */
export function unsavedBoxes(
  draft: ObservedDraft,
  saved: ReadonlyMap<string, SeenValue>,
): { studentId: string; cue: number; value: SeenValue }[] {
  return [...draft.seen].flatMap(([box, value]) => {
    const [studentId = "", cue = ""] = box.split("/");
    return saved.get(box) === value ? [] : [{ studentId, cue: Number(cue), value }];
  });
}
