import { describe, expect, it } from "vitest";
import { practiceExamplesSchema } from "../../../../../shared/roster/practice-examples.ts";
import type { SessionEvent, SessionEventBody } from "../../../../../shared/session/event.ts";
import { replay } from "../../../../../shared/session/reduce.ts";
import {
  answerSeconds,
  exampleAt,
  exampleOrder,
  questionSeconds,
} from "../../../../../src/live/example-order.ts";
import {
  examplesIn,
  examplesProblem,
  longestExample,
  mostExamples,
} from "../../../../../src/screens/practice/examples-in.ts";
import { matchPairs } from "../../../../../src/screens/session/match-pairs.ts";

const examples = { working: ["reads", "writes", "asks"], notWorking: ["looks out", "chats"] };

describe("the examples of a practice", () => {
  it("are all shown, mixed, in an order that the session's seed settles", () => {
    const order = exampleOrder(examples, "one");
    expect(order).toEqual(exampleOrder(examples, "one"));
    expect(order.map(({ text }) => text).sort()).toEqual(
      [...examples.working, ...examples.notWorking].sort(),
    );
    for (const { text, isWorking } of order) {
      expect(isWorking).toBe(examples.working.includes(text));
    }
    const orders = ["one", "two", "three", "four"].map((seed) =>
      exampleOrder(examples, seed)
        .map(({ text }) => text)
        .join(),
    );
    expect(new Set(orders).size).toBeGreaterThan(1);
  });

  it("are each a question first and then answered, in turn and round again", () => {
    const order = exampleOrder(examples, "one");
    const turn = questionSeconds + answerSeconds;
    expect(exampleAt(order, 0)).toEqual({ example: order[0], isAnswered: false });
    expect(exampleAt(order, questionSeconds)).toEqual({ example: order[0], isAnswered: true });
    expect(exampleAt(order, turn)).toEqual({ example: order[1], isAnswered: false });
    expect(exampleAt(order, 5 * turn)?.example).toEqual(order[0]);
    expect(exampleAt([], 3)).toBeNull();
  });

  it("are read one a line, within what can be saved", () => {
    expect(examplesIn(" eyes on my page \r\n\n  pencil moving\n")).toEqual([
      "eyes on my page",
      "pencil moving",
    ]);
    const most = Array.from({ length: mostExamples }, () => "e".repeat(longestExample));
    expect(examplesProblem(most)).toBeNull();
    expect(practiceExamplesSchema.safeParse({ working: most, notWorking: [] }).success).toBe(true);
    expect(examplesProblem([...most, "one more"])).toBe("too-many");
    expect(examplesProblem(["e".repeat(longestExample + 1)])).toBe("too-long");
  });
});

describe("the match of a practice", () => {
  const log = (...bodies: SessionEventBody[]): SessionEvent[] =>
    bodies.map((body, index) => ({
      stamp: { seq: index + 1, atMs: index * 1_000, wallMs: 0, offsetMinutes: 0 },
      body,
    }));

  it("pairs the newest look with the student's own mark, and leaves out looks at no cue", () => {
    const check = (
      studentId: string,
      cue: number | null,
      value: "on" | "off",
    ): SessionEventBody => ({
      kind: "spot-check",
      studentId,
      cue,
      value,
    });
    const state = replay(
      log(
        { kind: "begun" },
        { kind: "delivered", cue: 1, by: "sound", latenessMs: 0, problem: null },
        { kind: "mark", studentId: "a", cue: 1, value: "on", way: "screen", late: false },
        check("a", 1, "on"),
        check("a", 1, "off"),
        check("b", 1, "on"),
        check("a", null, "on"),
      ),
    );
    expect(matchPairs(state)).toEqual([
      { studentId: "a", first: "on", second: "off" },
      { studentId: "b", first: "none", second: "on" },
    ]);
  });
});
