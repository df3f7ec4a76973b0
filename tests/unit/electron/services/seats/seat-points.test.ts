import { expect, it } from "vitest";
import { seatPoints } from "../../../../../electron/services/seats/seat-points.ts";
import { noRules } from "../../../../../shared/plan/earning.ts";
import { firstPlan } from "../../../../../shared/plan/plan.ts";
import { monday } from "../../store/temporary-folder.ts";
import { makeGroup, openServices } from "../services.ts";

it("no counter stands at the seat of a student of whom it was agreed to earn no points", async () => {
  const { store, clock, ...services } = openServices();
  const { group, students } = await makeGroup({ store, clock, ...services }, ["Pine", "Otter"]);
  const [pine = "", otter = ""] = students.map(({ id }) => id);
  const session = store.sessions.create({
    groupId: group.id,
    kind: "seatwork",
    planName: "First plan",
    plan: { ...firstPlan, earning: { kind: "own", rules: { ...noRules, mark: 1 } } },
    seed: "seats",
    startedMs: monday,
    offsetMinutes: 0,
    day: "2026-03-02",
  });
  const counters = () => [...(seatPoints(store, clock).of(session) ?? [])];
  expect(counters()).toEqual([
    [pine, 0],
    [otter, 0],
  ]);
  const said = { line: "points", answer: "no", day: "2026-03-02", who: "" } as const;
  store.agreed.add(pine, said, monday);
  expect(counters()).toEqual([[otter, 0]]);
});
