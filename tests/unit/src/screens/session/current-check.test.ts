import { describe, expect, it } from "vitest";
import { currentCheck } from "../../../../../src/screens/session/current-check.ts";

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
