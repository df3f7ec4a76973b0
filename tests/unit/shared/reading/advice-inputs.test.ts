import { describe, expect, it } from "vitest";
import { advise } from "../../../../shared/advice/advice.ts";
import { adviceInputs } from "../../../../shared/reading/advice-inputs.ts";
import { runJob } from "../../../../src/reading/analysis-job.ts";
import { groupCounts, type Marks, session } from "./builders.ts";

const days = ["2026-10-05", "2026-10-06", "2026-10-07", "2026-10-08", "2026-10-09", "2026-10-12"];
const sessions = days.map((day, at) => session(`n${at}`, day));
const self: Marks = [[4, 6, 0], [9, 1, 0], [9, 1, 0], [9, 1, 0], null, null];
const observer: Marks = [null, null, null, [3, 7, 0], [9, 1, 0], [10, 0, 0]];
const counts = groupCounts(sessions, [{ self, observer }]);

function inputsAt(place: number, since: string, placeSinceMs: number | null = null) {
  const answer = runJob(counts, { kind: "next" });
  if (answer.kind !== "next") throw new Error("Another answer");
  const program = {
    groupId: "g",
    goal: 0.8,
    stepMeansSeconds: [120, 240],
    place,
    pointsPaid: true,
    placeSince: since,
    placeSinceMs,
  };
  return adviceInputs(answer.reading.advice, program);
}

describe("what the advice is drawn from", () => {
  it("is self-records while there are cues, and probes at the steps without", () => {
    expect(inputsAt(1, "2026-10-05")).toMatchObject({ source: "self", sessions: { length: 4 } });
    for (const place of [3, 4]) {
      expect(inputsAt(place, "2026-10-05")).toMatchObject({
        source: "observer",
        sessions: [
          { on: 3, off: 7 },
          { on: 9, off: 1 },
          { on: 10, off: 0 },
        ],
      });
    }
  });

  it("is own records without cues until there is a probe", () => {
    const early = { ...inputsAt(2, "2026-10-05") };
    expect(early.source).toBe("observer");
    expect(inputsAt(2, "2026-10-13")).toMatchObject({ source: "self", sessions: [] });
  });

  it("gives advice from probes that no check of records holds up", () => {
    const { decision, reason } = advise(inputsAt(4, "2026-10-09"));
    expect([decision, reason]).toEqual(["not-enough-data", "few-sessions"]);
    const held = advise({ ...inputsAt(3, "2026-10-09"), sessions: three(10) });
    expect([held.decision, held.toRung]).toEqual(["end-cues-and-probe", "probes"]);
    expect(advise({ ...inputsAt(4, "2026-10-09"), sessions: three(10) }).reason).toBe(
      "goal-held-at-last-step",
    );
    expect(advise({ ...inputsAt(4, "2026-10-09"), sessions: three(5) }).decision).toBe("step-back");
  });

  it("leaves out sessions of the same day before the move", () => {
    const moved = sessions[3]?.startedMs ?? 0;
    expect(inputsAt(1, "2026-10-08").sessions).toHaveLength(1);
    expect(inputsAt(1, "2026-10-08", moved).sessions).toHaveLength(1);
    expect(inputsAt(1, "2026-10-08", moved + 1).sessions).toHaveLength(0);
  });

  it("names the newest session with a record", () => {
    const answer = runJob(counts, { kind: "next" });
    expect(answer).toMatchObject({ reading: { newestMs: sessions[5]?.startedMs } });
    const none = runJob(groupCounts([], [{ self: [] }]), { kind: "next" });
    expect(none).toMatchObject({ reading: { newestMs: null } });
  });
});

const three = (on: number) => Array.from({ length: 3 }, () => ({ on, off: 10 - on, missing: 0 }));
