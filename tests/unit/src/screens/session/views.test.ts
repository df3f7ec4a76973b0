import { describe, expect, it } from "vitest";
import { type CueingWay, firstPlan, type RecordingWay } from "../../../../../shared/plan/plan.ts";
import type { SessionKind } from "../../../../../shared/session/event.ts";
import { classView, firstView, viewsOf } from "../../../../../src/screens/session/views.ts";

const session = (kind: SessionKind, recording: RecordingWay, cueing: CueingWay) => ({
  kind,
  plan: { ...firstPlan, recording, cueing },
});

describe("what stands below the strip", () => {
  it("is the teacher's own where students record: they have the class screen", () => {
    expect(firstView(session("seatwork", "screen", "sound"))).toBe("strip");
    expect(firstView(session("seatwork", "screen", "silent"))).toBe("strip");
  });

  it("is the tiles in a practice on screen, which the class looks at together", () => {
    expect(firstView(session("practice", "screen", "silent"))).toBe("tiles");
  });

  it("is the teacher's own where each has a device, which shows the cue", () => {
    const silent = session("seatwork", "seat", "silent");
    expect(firstView(silent)).toBe("strip");
    expect(viewsOf(silent, false)).toEqual(["board", "strip"]);
  });

  it("is nothing on paper with a chime: the teacher's screen is the teacher's own", () => {
    expect(firstView(session("seatwork", "paper", "sound"))).toBe("strip");
  });

  it("is the board in a practice on paper, which shows the examples", () => {
    expect(firstView(session("practice", "paper", "sound"))).toBe("board");
  });

  it("never hides a cue that is only seen, unless another window may show it", () => {
    const silent = session("seatwork", "paper", "silent");
    expect(viewsOf(silent, false)).not.toContain("strip");
    expect(viewsOf(silent, false)).toContain(firstView(silent));
    expect(viewsOf(silent, true)).toContain("strip");
    // The class screen shows them there, and its absence is said.
    expect(classView(session("seatwork", "screen", "silent"))).toBe("tiles");
  });

  it("shows no tiles where each student is asked alone, on their own device", () => {
    for (const recording of ["screen", "paper"] as const) {
      const own = session("seatwork", recording, "own");
      expect(firstView(own)).toBe("strip");
      expect(viewsOf(own, false)).toEqual(["board", "strip"]);
    }
  });

  it.each([true, false])("offers tiles only where students record at the screen", (hasOthers) => {
    const onPaper = session("seatwork", "paper", "sound");
    const onScreen = session("seatwork", "screen", "sound");
    expect(viewsOf(onPaper, hasOthers)).toEqual(["board", "strip"]);
    expect(viewsOf(onScreen, hasOthers)).toEqual(["tiles", "board", "strip"]);
  });
});
