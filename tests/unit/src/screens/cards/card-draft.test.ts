import { describe, expect, it } from "vitest";
import type { MarkValue } from "../../../../../shared/session/event.ts";
import {
  boxesOf,
  type CardDraft,
  cardToKeep,
  draftOf,
  filledBoxes,
  fits,
  inOtherWay,
  pasted,
  typed,
  withTotals,
} from "../../../../../src/screens/cards/card-draft.ts";

const boxes = (...marks: MarkValue[]) => ({ kind: "boxes", boxes: marks }) as const;
const totals = (on: number, off: number) => ({ kind: "totals", on, off }) as const;
const empty = draftOf(boxes());

const typedIn = (keys: string, draft: CardDraft = empty): CardDraft =>
  [...keys].reduce((now, key, index) => typed(now, index + 1, key), draft);

describe("typing a card", () => {
  it("takes one key a box and drops empty boxes at the end", () => {
    const draft = typedIn("+-y0.");
    expect(draft.card).toEqual(boxes("on", "off", "on", "off"));
    expect(filledBoxes(draft)).toBe(4);
    expect(boxesOf(draft, 6)).toEqual(["on", "off", "on", "off", "none", "none"]);
  });

  it("keeps what is no mark in sight and the mark that was there, until a mark takes its place", () => {
    const bad = typed(typedIn("++"), 2, "x");
    expect(bad.card).toEqual(boxes("on", "on"));
    expect([...bad.bad]).toEqual([[2, "x"]]);
    const repaired = typed(bad, 2, "-");
    expect(repaired.card).toEqual(boxes("on", "off"));
    expect(repaired.bad.size).toBe(0);
  });
});

describe("totals only", () => {
  it("begin with what the boxes add up to and change nothing until they are typed over", () => {
    const draft = typedIn("++-.+");
    const look = inOtherWay(draft);
    expect(look.card).toEqual(totals(3, 1));
    expect(cardToKeep(look)).toEqual(draft.card);
    expect(inOtherWay(look)).toEqual(draft);
    expect(cardToKeep(withTotals(look, 4, 1))).toEqual(totals(4, 1));
  });

  it("are not erased by a look at the empty boxes", () => {
    const look = inOtherWay(draftOf(totals(5, 2)));
    expect(look.card).toEqual(boxes());
    expect(cardToKeep(look)).toEqual(totals(5, 2));
    expect(inOtherWay(look).card).toEqual(totals(5, 2));
    expect(cardToKeep(typed(look, 1, "+"))).toEqual(boxes("on"));
  });

  it("keep a box that is no mark through a look", () => {
    const draft = typedIn("+x");
    expect([...inOtherWay(inOtherWay(draft)).bad]).toEqual([[2, "x"]]);
  });

  it("can be no more than the card has boxes", () => {
    expect(fits(totals(3, 2), 5)).toBe(true);
    expect(fits(totals(3, 3), 5)).toBe(false);
  });
});

describe("a block pasted over the cards", () => {
  const sheetOf = (...drafts: CardDraft[]) => drafts.map((draft) => ({ draft, isAside: false }));

  it("lies below and right of the box it is pasted on", () => {
    const sheet = sheetOf(typedIn("+++"), empty, empty);
    const { drafts, leftOver } = pasted(sheet, 1, 2, "+\t-\r\n-\t\t+\r\n", 4);
    expect(drafts.map(({ card }) => card)).toEqual([
      boxes("on", "on", "on"),
      boxes("none", "on", "off"),
      boxes("none", "off", "none", "on"),
    ]);
    expect(leftOver).toBeNull();
  });

  it("names rows without a student and marks past the last box, and takes the rest", () => {
    const block = "+\t-\t+\n-\tx\t-\n+\t+\t+\n\t\t\n";
    const { drafts, leftOver } = pasted(sheetOf(empty, empty), 0, 1, block, 2);
    expect(drafts.map(({ card }) => card)).toEqual([boxes("on", "off"), boxes("off")]);
    expect(drafts.map(({ bad }) => [...bad])).toEqual([[], [[2, "x"]]]);
    expect(leftOver).toEqual({
      rows: [{ row: 3, cells: 3 }],
      past: [
        { index: 0, cells: 1 },
        { index: 1, cells: 1 },
      ],
      aside: [],
    });
  });

  it("calls a stray word past the last box left over, not a box to correct", () => {
    const { drafts, leftOver } = pasted(sheetOf(empty), 0, 2, "+\tname", 2);
    expect(drafts[0]?.bad.size).toBe(0);
    expect(leftOver?.past).toEqual([{ index: 0, cells: 1 }]);
  });

  it("passes over a student who is set aside without moving the rows below", () => {
    const sheet = [
      { draft: empty, isAside: true },
      { draft: empty, isAside: false },
    ];
    const { drafts, leftOver } = pasted(sheet, 0, 1, "+\t+\n-\t-\n", 2);
    expect(drafts[0]).toBe(empty);
    expect(drafts[1]?.card).toEqual(boxes("off", "off"));
    expect(leftOver).toEqual({ rows: [], past: [], aside: [0] });
  });

  it("corrects a box that held no mark, and leaves cards alone for which it has an empty row", () => {
    const totalled = draftOf(totals(2, 1));
    const { drafts } = pasted(sheetOf(typedIn("x"), totalled), 0, 1, "-\t+\n\t\n", 2);
    expect(drafts[0]?.card).toEqual(boxes("off", "on"));
    expect(drafts[0]?.bad.size).toBe(0);
    expect(drafts[1]).toBe(totalled);
  });

  it("lies over the boxes of a card whose totals are only looked at", () => {
    const look = inOtherWay(typedIn("++"));
    const { drafts } = pasted(sheetOf(look), 0, 3, "-\t-", 4);
    expect(drafts[0] && cardToKeep(drafts[0])).toEqual(boxes("on", "on", "off", "off"));
  });
});
