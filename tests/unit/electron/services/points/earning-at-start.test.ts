import { describe, expect, it } from "vitest";
import { checkedShare } from "../../../../../electron/services/points/earning-at-start.ts";
import type { Store } from "../../../../../electron/store/store.ts";
import { firstPlan } from "../../../../../shared/plan/plan.ts";
import { truthPays, usualRules } from "../../../../../shared/points/truth.ts";
import type { SessionEventBody } from "../../../../../shared/session/event.ts";
import { monday } from "../../store/temporary-folder.ts";
import { makeGroup, openServices } from "../services.ts";

/** A session of so many cues, in which each student was checked at so many of the first. */
function held(store: Store, groupId: string, cues: number, checks: ReadonlyMap<string, number>) {
  const { id } = store.sessions.create({
    groupId,
    kind: "seatwork",
    planName: "First plan",
    plan: firstPlan,
    seed: "checks",
    startedMs: monday,
    offsetMinutes: 0,
    day: "2026-03-02",
  });
  const bodies: SessionEventBody[] = [{ kind: "begun" }];
  for (let cue = 1; cue <= cues; cue++) {
    bodies.push({ kind: "delivered", cue, by: "sound", latenessMs: 0, problem: null });
    for (const [studentId, count] of checks) {
      if (cue <= count) bodies.push({ kind: "spot-check", studentId, cue, value: "on" });
    }
  }
  const stamp = { atMs: 0, wallMs: monday, offsetMinutes: 0 };
  store.log.appendAll(id, [...bodies, { kind: "ended", reason: "finished" }], stamp);
}

describe("the share of checked cues", () => {
  it("is that of the student checked least, so that the truth pays for everybody", async () => {
    const services = openServices();
    const { group, students } = await makeGroup(services, ["Pine", "Otter", "Wren"]);
    const [pine = "", otter = "", wren = ""] = students.map(({ id }) => id);
    const checks = new Map([
      [pine, 20],
      [otter, 8],
      [wren, 4],
    ]);
    held(services.store, group.id, 20, checks);
    const share = checkedShare(services.store, group.id, firstPlan);
    expect(share).toBe(0.2);
    // By the mean of the three a match would pay 2, and Wren would gain by always saying yes.
    for (const count of checks.values()) {
      expect(truthPays(usualRules(share), count / 20)).toBe("pays");
    }
  });

  it("is the plan's until somebody had twenty cues", async () => {
    const services = openServices();
    const { group, students } = await makeGroup(services, ["Pine", "Otter", "Wren", "Fern"]);
    held(services.store, group.id, 19, new Map([[students[0]?.id ?? "", 19]]));
    const plan = { ...firstPlan, studentsPerCheck: 2, checkPace: "every" } as const;
    expect(checkedShare(services.store, group.id, plan)).toBe(0.5);
  });
});
