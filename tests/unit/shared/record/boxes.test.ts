import { describe, expect, it } from "vitest";
import {
  awayBoxes,
  boxOfCue,
  cardChanges,
  cardOf,
  checkCard,
  cueOfBox,
} from "../../../../shared/record/boxes.ts";
import { observerCounts, selfCounts } from "../../../../shared/record/counts.ts";
import type { SessionEventBody } from "../../../../shared/session/event.ts";
import { replay } from "../../../../shared/session/reduce.ts";
import { ada, announced, begun, ben, delivered, logOf, mark } from "../session/events.ts";

const lost: SessionEventBody = { kind: "undelivered", cue: 2, reason: "skipped" };
/** Three planned cues, of which the second was left out. */
const heard = [begun, announced(1), delivered(1), lost, announced(3), delivered(3)];
const ended: SessionEventBody = { kind: "ended", reason: "finished" };
const planned = 3;

const endedWith = (...more: SessionEventBody[]) => replay(logOf(...heard, ended, ...more));

describe("boxes of a card", () => {
  it("belong to the cues that were heard, then to extra ones", () => {
    expect([1, 2, 3, 4].map((box) => cueOfBox(box, [1, 3], planned))).toEqual([1, 3, 4, 5]);
    // An imported session may hold more cues than its plan's schedule; no two boxes share one.
    const delivered = [1, 2, 3, 4, 5];
    const boxes = [1, 2, 3, 4, 5, 6, 7];
    expect(boxes.map((box) => cueOfBox(box, delivered, 3))).toEqual(boxes);
    expect(boxes.map((cue) => boxOfCue(cue, delivered, 3))).toEqual(boxes);
  });

  it("are found again from their cues", () => {
    for (const box of [1, 2, 3, 4]) {
      expect(boxOfCue(cueOfBox(box, [1, 3], planned), [1, 3], planned)).toBe(box);
    }
  });

  it("are corrected in the session's own way, on a screen long after their cue", () => {
    const state = endedWith(mark(ada, 1, "on"));
    const card = { kind: "boxes", boxes: ["off"] } as const;
    expect(cardChanges(state, ada, card, planned, "screen")).toEqual([
      { ...mark(ada, 1, "off", "screen"), late: true },
    ]);
    // Only a card takes the place of totals, so boxes typed after totals come from one.
    const total: SessionEventBody = { kind: "total", studentId: ada, on: 1, off: 0, way: "paper" };
    const totalled = endedWith(mark(ada, 1, "on"), total);
    const changes = cardChanges(totalled, ada, card, planned, "screen");
    expect(changes).toEqual([mark(ada, 1, "off", "paper")]);
    expect(cardOf(endedWith(mark(ada, 1, "on"), total, ...changes), ada, planned)).toEqual(card);
  });

  it("come back as they were typed, extra ones too", () => {
    const boxes = ["on", "off", "none", "on"] as const;
    const changes = cardChanges(endedWith(), ada, { kind: "boxes", boxes }, planned, "paper");
    expect(changes.map((body) => (body.kind === "mark" ? body.cue : body.kind))).toEqual([1, 3, 5]);
    expect(cardOf(endedWith(...changes), ada, planned)).toEqual({ kind: "boxes", boxes });
  });

  it("write nothing when nothing differs, and only what differs otherwise", () => {
    const state = endedWith(mark(ada, 1, "on", "paper"), mark(ada, 3, "off", "paper"));
    expect(
      cardChanges(state, ada, { kind: "boxes", boxes: ["on", "off", "none"] }, planned, "paper"),
    ).toEqual([]);
    expect(cardChanges(state, ada, { kind: "boxes", boxes: ["on"] }, planned, "paper")).toEqual([
      mark(ada, 3, "none", "paper"),
    ]);
  });

  it("change between boxes and totals without leaving the other behind", () => {
    const boxed = endedWith(mark(ada, 1, "on", "paper"));
    const totals = { kind: "totals", on: 1, off: 1 } as const;
    const toTotals = cardChanges(boxed, ada, totals, planned, "paper");
    const totalled = endedWith(mark(ada, 1, "on", "paper"), ...toTotals);
    expect(cardOf(totalled, ada, planned)).toEqual(totals);
    expect(cardChanges(totalled, ada, totals, planned, "paper")).toEqual([]);
    for (const boxes of [["off"], []] as const) {
      const back = cardChanges(totalled, ada, { kind: "boxes", boxes }, planned, "paper");
      const state = endedWith(mark(ada, 1, "on", "paper"), ...toTotals, ...back);
      expect(cardOf(state, ada, planned)).toEqual({ kind: "boxes", boxes });
    }
  });

  it("are refused when the card is not that long", () => {
    expect(checkCard({ kind: "boxes", boxes: ["on", "none", "none"] }, 2)).toBeNull();
    expect(checkCard({ kind: "boxes", boxes: ["on", "on", "on"] }, 2)).toEqual({
      code: "box-too-many",
      box: 3,
      boxesOnCard: 2,
    });
    expect(checkCard({ kind: "totals", on: 2, off: 1 }, 2)).toEqual({
      code: "total-too-many",
      total: 3,
      boxesOnCard: 2,
    });
  });
});

describe("counts of a session", () => {
  it("hold delivered cues only, and call the rest of them missing", () => {
    const state = endedWith(mark(ada, 1, "on", "paper"), mark(ada, 4, "on", "paper"));
    expect(selfCounts(state, ada)).toEqual({ on: 1, off: 0, missing: 1 });
    expect(selfCounts(state, ben)).toEqual({ on: 0, off: 0, missing: 2 });
  });

  it("expect no mark of a student who was set aside when the cue came", () => {
    const aside: SessionEventBody = { kind: "set-aside", studentId: ada };
    const left = replay(
      logOf(
        begun,
        announced(1),
        delivered(1),
        mark(ada, 1, "off"),
        aside,
        announced(2),
        delivered(2),
      ),
    );
    expect(selfCounts(left, ada)).toEqual({ on: 0, off: 1, missing: 0 });
    expect(selfCounts(left, ben)).toEqual({ on: 0, off: 0, missing: 2 });
    const away = replay(logOf(begun, aside, announced(1), delivered(1)));
    expect(selfCounts(away, ada)).toBeNull();
  });

  it("leave out who was away: set aside after the end, and no mark", () => {
    const aside: SessionEventBody = { kind: "set-aside", studentId: ada };
    const back: SessionEventBody = { kind: "back", studentId: ada };
    expect(selfCounts(endedWith(aside), ada)).toBeNull();
    expect(selfCounts(endedWith(aside, back), ada)).toEqual({ on: 0, off: 0, missing: 2 });
    const marked = endedWith(mark(ada, 1, "on", "paper"), aside);
    expect(selfCounts(marked, ada)).toEqual({ on: 1, off: 0, missing: 1 });
    // Set aside while the session ran is no word on the cues before.
    const left = replay(logOf(...heard, aside, ended));
    expect(selfCounts(left, ada)).toEqual({ on: 0, off: 0, missing: 2 });
  });

  it("take a total for the whole card", () => {
    const total: SessionEventBody = { kind: "total", studentId: ada, on: 1, off: 0, way: "paper" };
    expect(selfCounts(endedWith(total), ada)).toEqual({ on: 1, off: 0, missing: 1 });
    expect(selfCounts(endedWith({ ...total, on: 4 }), ada)).toEqual({ on: 4, off: 0, missing: 0 });
  });

  it("keep what the observer saw apart from what students recorded", () => {
    const seen = (cue: number, value: "on" | "off" | "unseen", observer: 1 | 2 = 1) =>
      ({ kind: "observed", studentId: ada, cue, value, observer }) as const;
    const state = endedWith(seen(1, "on"), seen(1, "off"), seen(3, "unseen"), seen(3, "on", 2));
    expect(observerCounts(state, ada)).toEqual({ on: 0, off: 1, missing: 1 });
    expect(observerCounts(state, ben)).toBeNull();
  });
});

describe("boxes of who was away", () => {
  const saidAway = (cue: number, away = true): SessionEventBody => ({
    kind: "said-away",
    studentId: ada,
    cue,
    away,
  });
  const logged = (...bodies: readonly SessionEventBody[]) => replay(logOf(...heard, ...bodies));

  it("are those of cues at which the student said so, by box and not by cue", () => {
    expect(awayBoxes(logged(saidAway(3)), ada, planned)).toEqual([2]);
    expect(awayBoxes(logged(saidAway(3)), ben, planned)).toEqual([]);
  });

  it("are none once that was taken back or answered, also when the answer was taken back", () => {
    expect(awayBoxes(logged(saidAway(3), saidAway(3, false)), ada, planned)).toEqual([]);
    expect(awayBoxes(logged(saidAway(3), mark(ada, 3, "on")), ada, planned)).toEqual([]);
    const undone = logged(saidAway(3), mark(ada, 3, "on"), mark(ada, 3, "none"));
    expect(awayBoxes(undone, ada, planned)).toEqual([]);
  });

  it("are those of cues that came while the student was absent, and stay out of every count", () => {
    const absent = replay(
      logOf(begun, { kind: "set-aside", studentId: ada }, ...heard.slice(1), {
        kind: "back",
        studentId: ada,
      }),
    );
    expect(awayBoxes(absent, ada, planned)).toEqual([1, 2]);
    expect(selfCounts(logged(saidAway(3)), ada)).toEqual(selfCounts(logged(), ada));
  });
});
