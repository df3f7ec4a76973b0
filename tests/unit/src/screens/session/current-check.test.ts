import { describe, expect, it } from "vitest";
import type { SessionEventBody } from "../../../../../shared/session/event.ts";
import { replay } from "../../../../../shared/session/reduce.ts";
import { currentCheck, currentOwnCheck } from "../../../../../src/screens/session/current-check.ts";

const draw = [
  { cueIndex: 0, studentIds: ["ash", "birch"] },
  { cueIndex: 3, studentIds: ["cedar"] },
];
const said = (studentId: string, cue: number) =>
  ({ seq: 1, studentId, cue, value: "on", late: false }) as const;
const at = (
  openCue: number | null,
  spotChecks: readonly ReturnType<typeof said>[] = [],
  setAside: readonly string[] = [],
) => ({ openCue, spotChecks, setAside: new Set(setAside) });
const none = new Set<string>();

describe("The check that waits", () => {
  it("comes with its cue and stays until the next check, late from the next cue on", () => {
    expect(currentCheck(draw, at(null), none)).toBeNull();
    expect(currentCheck(draw, at(1), none)).toMatchObject({ cue: 1, isLate: false });
    expect(currentCheck(draw, at(2), none)).toMatchObject({ cue: 1, isLate: true });
    expect(currentCheck(draw, at(3), none)?.waiting).toEqual(new Set(["ash", "birch"]));
    expect(currentCheck(draw, at(4), none)).toMatchObject({ cue: 4, isLate: false });
  });

  it("waits for nobody who is absent or answered, and again for whose answer was taken back", () => {
    const waiting = (...args: Parameters<typeof at>) =>
      currentCheck(draw, at(...args), none)?.waiting;
    expect(waiting(1, [said("ash", 1)])).toEqual(new Set(["birch"]));
    expect(waiting(2, [said("ash", 1)], ["birch"])).toEqual(new Set());
    expect(currentCheck(draw, at(1, [said("ash", 1)]), new Set(["ash/1"]))?.waiting).toEqual(
      new Set(["ash", "birch"]),
    );
  });
});

describe("The check of own cues that waits", () => {
  const ownDraw = [
    { studentId: "ash", cue: 2, seconds: 200 },
    { studentId: "birch", cue: 1, seconds: 300 },
  ];
  const state = (...bodies: readonly SessionEventBody[]) =>
    replay(
      [{ kind: "begun", cueing: "own" } as const, ...bodies].map((body, index) => ({
        stamp: { seq: index + 1, atMs: index * 1_000, wallMs: 0, offsetMinutes: 0 },
        body,
      })),
    );
  const shown = (studentId: string, cue: number): SessionEventBody => ({
    kind: "delivered",
    studentId,
    cue,
    by: "sight",
    latenessMs: 0,
    problem: null,
  });

  it("asks for the one whose cue it is, late from their own next one on", () => {
    expect(currentOwnCheck(ownDraw, state(shown("birch", 2), shown("ash", 1)), none)).toBeNull();
    const two = [shown("ash", 1), shown("ash", 2)];
    const asked = { cue: 2, studentIds: ["ash"], waiting: new Set(["ash"]) };
    expect(currentOwnCheck(ownDraw, state(...two, shown("cedar", 9)), none)).toEqual({
      ...asked,
      isLate: false,
    });
    expect(currentOwnCheck(ownDraw, state(...two, shown("ash", 3)), none)).toEqual({
      ...asked,
      isLate: true,
    });
    const seen = { kind: "spot-check", studentId: "ash", cue: 2, value: "on" } as const;
    expect(currentOwnCheck(ownDraw, state(...two, seen), none)?.waiting.size).toBe(0);
    expect(currentOwnCheck(ownDraw, state(...two, shown("birch", 1)), none)?.studentIds).toEqual([
      "birch",
    ]);
  });
});
