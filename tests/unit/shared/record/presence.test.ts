import { describe, expect, it } from "vitest";
import { presenceOf } from "../../../../shared/record/presence.ts";
import type { SessionEventBody } from "../../../../shared/session/event.ts";
import { replay } from "../../../../shared/session/reduce.ts";
import { ada, begun, ben, delivered, logOf } from "../session/events.ts";

// Words of our own for what a register says; no source.

const absent: SessionEventBody = { kind: "set-aside", studentId: ada };
const here: SessionEventBody = { kind: "back", studentId: ada };
const ended: SessionEventBody = { kind: "ended", reason: "teacher" };
const whereAfter = (...bodies: SessionEventBody[]) =>
  presenceOf(replay(logOf(begun, ...bodies)), ada);

describe("where a student was", () => {
  it("is here unless somebody said otherwise", () => {
    expect(whereAfter(delivered(1), ended)).toBe("here");
    expect(whereAfter(absent, here, delivered(1), ended)).toBe("here");
    expect(presenceOf(replay(logOf(begun, absent, delivered(1))), ben)).toBe("here");
  });

  it("is absent throughout, from the start on or by a press after the end", () => {
    expect(whereAfter(absent)).toBe("absent");
    expect(whereAfter(absent, delivered(1), delivered(2), ended)).toBe("absent");
    expect(whereAfter(delivered(1), ended, absent)).toBe("absent");
  });

  it("came late, left early, or was away between", () => {
    expect(whereAfter(absent, delivered(1), here, delivered(2), ended)).toBe("late");
    expect(whereAfter(absent, delivered(1), here, ended)).toBe("late");
    expect(whereAfter(delivered(1), absent, delivered(2), ended)).toBe("early");
    expect(whereAfter(delivered(1), absent, ended)).toBe("early");
    expect(whereAfter(delivered(1), absent, delivered(2), here, delivered(3), ended)).toBe(
      "between",
    );
  });
});
