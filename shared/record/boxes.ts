import type { CardEvent } from "../session/decide.ts";
import type { MarkValue, MarkWay } from "../session/event.ts";
import { deliveredCuesOf, isAsked, type SessionState } from "../session/state.ts";
import { withoutEmptyEnd } from "./card-text.ts";

/** One student's card, box by box or as totals only. */
export type PaperCard =
  | { readonly kind: "boxes"; readonly boxes: readonly MarkValue[] }
  | { readonly kind: "totals"; readonly on: number; readonly off: number };

/** What the desktop side refuses in a card; `box` counts from 1. */
export type CardProblem =
  | { readonly code: "box-too-many"; readonly box: number; readonly boxesOnCard: number }
  | { readonly code: "total-too-many"; readonly total: number; readonly boxesOnCard: number };

/**
 * The cue that a box of the card belongs to: the k-th box to the k-th cue that was heard. A student
 * who filled more boxes than cues were heard keeps them, as extra cues numbered on after the planned
 * ones. Such cues were never delivered, so they show on the card and count in no rate. Where each student
 * has cues of their own, both lists are theirs.
 *
 * @param box from 1
 * @param delivered numbers of the delivered cues, ascending
 * @param planned how many cues the session's schedule has
 */
export function cueOfBox(box: number, delivered: readonly number[], planned: number): number {
  return delivered[box - 1] ?? lastCue(delivered, planned) + box - delivered.length;
}

/** The box that a cue's mark is shown in: the other way round of `cueOfBox`. */
export function boxOfCue(cue: number, delivered: readonly number[], planned: number): number {
  const index = delivered.indexOf(cue);
  return index === -1 ? cue - lastCue(delivered, planned) + delivered.length : index + 1;
}

/** The last number that a cue has: an imported session may hold more cues than its plan's schedule. */
const lastCue = (delivered: readonly number[], planned: number): number =>
  Math.max(planned, ...delivered);

/** A student's card as the log has it: totals when those were entered last, else box by box. */
export function cardOf(state: SessionState, studentId: string, planned: number): PaperCard {
  const total = state.totals.get(studentId);
  if (total !== undefined) return { kind: "totals", on: total.on, off: total.off };
  const marks = state.marks.get(studentId) ?? new Map();
  const delivered = deliveredCuesOf(state, studentId);
  const extra = Math.max(0, ...[...marks.keys()].map((cue) => cue - lastCue(delivered, planned)));
  const boxes = Array.from(
    { length: delivered.length + extra },
    (_, index) => marks.get(cueOfBox(index + 1, delivered, planned))?.value ?? "none",
  );
  return { kind: "boxes", boxes: withoutEmptyEnd(boxes) };
}

/**
 * The boxes of a card that are empty because the student was not asked: absent when the cue came, away by
 * their own word, or at a device that did not show it.
 *
 * @returns numbers of boxes, from 1, ascending
 */
export function awayBoxes(state: SessionState, studentId: string, planned: number): number[] {
  const delivered = deliveredCuesOf(state, studentId);
  const marks = state.marks.get(studentId);
  return delivered
    .filter((cue) => {
      const saidAway = state.saidAway.get(studentId)?.has(cue) === true;
      const isAway = saidAway || !isAsked(state, studentId, cue);
      return isAway && (marks?.get(cue)?.value ?? "none") === "none";
    })
    .map((cue) => boxOfCue(cue, delivered, planned));
}

/** Why this card cannot be right, or null. More boxes than the printed card has is a slip of the hand. */
export function checkCard(card: PaperCard, boxesOnCard: number): CardProblem | null {
  if (card.kind === "boxes") {
    const filled = withoutEmptyEnd(card.boxes).length;
    return filled > boxesOnCard ? { code: "box-too-many", box: filled, boxesOnCard } : null;
  }
  const total = card.on + card.off;
  return total > boxesOnCard ? { code: "total-too-many", total, boxesOnCard } : null;
}

/**
 * The events that turn the card in the log into this one: only the boxes that differ, so that entering
 * the same card twice writes nothing, and what was there stays in the history.
 *
 * @param way how the session's marks come in. On a shared screen this corrects a mark long after its
 * cue, so it is kept as late; a card on paper was marked in time. What takes the place of totals comes
 * from a card in any session, because only paper replaces paper.
 */
export function cardChanges(
  state: SessionState,
  studentId: string,
  card: PaperCard,
  planned: number,
  way: MarkWay,
): CardEvent[] {
  const before = cardOf(state, studentId, planned);
  if (card.kind === "totals") {
    const same = before.kind === "totals" && before.on === card.on && before.off === card.off;
    if (same) return [];
    return [{ kind: "total", studentId, on: card.on, off: card.off, way: "paper" }];
  }
  const delivered = deliveredCuesOf(state, studentId);
  const markWay = before.kind === "totals" ? "paper" : way;
  const mark = (box: number, value: MarkValue): CardEvent => {
    const cue = cueOfBox(box, delivered, planned);
    return { kind: "mark", studentId, cue, value, way: markWay, late: markWay !== "paper" };
  };
  // Paper marks were cleared by the total, so a card that takes its place is compared box by box with
  // what the log keeps beside it; when nothing differs, the first box is said again to end the total.
  const marks = state.marks.get(studentId);
  const count = Math.max(card.boxes.length, before.kind === "boxes" ? before.boxes.length : 0);
  const changes: CardEvent[] = [];
  for (let box = 1; box <= count; box++) {
    const cue = cueOfBox(box, delivered, planned);
    const value = card.boxes[box - 1] ?? "none";
    if ((marks?.get(cue)?.value ?? "none") !== value) changes.push(mark(box, value));
  }
  if (changes.length === 0 && before.kind === "totals") {
    changes.push(mark(1, card.boxes[0] ?? "none"));
  }
  return changes;
}
