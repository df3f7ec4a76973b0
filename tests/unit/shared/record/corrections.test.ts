import { describe, expect, it } from "vitest";
import { correctionsOf } from "../../../../shared/record/corrections.ts";
import { randomStream } from "../../../../shared/schedule/stream.ts";
import type { SessionEventBody } from "../../../../shared/session/event.ts";
import { replay } from "../../../../shared/session/reduce.ts";
import { ada, announced, begun, ben, delivered, logOf, mark } from "../session/events.ts";

const planned = 3;
const heard = [begun, announced(1), delivered(1), announced(3), delivered(3)];
const total = (on: number, off: number, way: "paper" | "screen" = "paper"): SessionEventBody => ({
  kind: "total",
  studentId: ada,
  on,
  off,
  way,
});
const box = (at: number, value: "on" | "off" | "none", way = "paper", late = false) => ({
  kind: "box",
  box: at,
  value,
  way,
  late,
});

const saidOf = (...bodies: SessionEventBody[]) =>
  correctionsOf(logOf(...heard, ...bodies), ada, planned).map(({ was, is }) => [was, is]);

describe("the corrections of a card", () => {
  it("say what stood in a box and what took its place, and nothing of a first mark", () => {
    const late: SessionEventBody = {
      kind: "mark",
      studentId: ada,
      cue: 3,
      value: "off",
      way: "screen",
      late: true,
    };
    expect(saidOf(mark(ada, 1, "on"), mark(ada, 3, "on"), mark(ben, 1, "off"), late)).toEqual([
      [box(2, "on", "screen"), box(2, "off", "screen", true)],
    ]);
    expect(saidOf(mark(ada, 1, "on"), mark(ada, 1, "none"), mark(ada, 1, "off"))).toEqual([
      [box(1, "on", "screen"), box(1, "none", "screen")],
    ]);
  });

  it("say which marks totals took the place of, and what took theirs", () => {
    const totals = (on: number, off: number) => ({ kind: "totals", on, off, way: "paper" });
    const first = mark(ada, 1, "on", "paper");
    const past = mark(ada, 4, "off", "paper");
    expect(saidOf(first, past, total(2, 1), total(2, 2), first)).toEqual([
      [box(1, "on"), totals(2, 1)],
      [box(3, "off"), totals(2, 1)],
      [totals(2, 1), totals(2, 2)],
      [totals(2, 2), box(1, "on")],
    ]);
  });

  it("carry the wall clock of what replaced", () => {
    const log = logOf(...heard, mark(ada, 1, "on"), mark(ada, 1, "off"));
    const [only] = correctionsOf(log, ada, planned);
    expect(only?.wallMs).toBe(log.at(-1)?.stamp.wallMs);
  });

  it("are as many as the reducer of the session counts, whatever the log", () => {
    const draw = randomStream("corrections", "wild");
    const pick = <Item>(items: readonly [Item, ...Item[]]): Item =>
      items[Math.floor(draw() * items.length)] ?? items[0];
    for (let run = 0; run < 50; run++) {
      const bodies = Array.from({ length: 60 }, (): SessionEventBody => {
        const cue = pick([1, 3, 4, 5]);
        if (draw() < 0.15) return total(pick([0, 1, 2]), 1, pick(["paper", "screen"] as const));
        const value = pick(["on", "off", "none"] as const);
        return mark(pick([ada, ben]), cue, value, pick(["paper", "screen"] as const));
      });
      const log = logOf(...heard, ...bodies);
      const counted = replay(log).corrections.get(ada) ?? 0;
      expect(correctionsOf(log, ada, planned)).toHaveLength(counted);
    }
  });
});
