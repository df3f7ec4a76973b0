import type { Store } from "../../../../electron/store/store.ts";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import { monday } from "./temporary-folder.ts";

/** A group with two invented students and one session in which nothing has happened yet. */
export function makeClass(store: Store) {
  const group = store.groups.create(
    { name: "Room 4", target: "Eyes on my work", isSample: false },
    monday,
  );
  const [pine, otter] = store.students.add(group.id, ["Pine", "Otter"], monday);
  if (pine === undefined || otter === undefined) throw new Error("The students were not added");
  const session = store.sessions.create({
    groupId: group.id,
    kind: "seatwork",
    planName: "First plan",
    plan: firstPlan,
    seed: "paper",
    startedMs: monday,
    offsetMinutes: 60,
    day: "2026-03-02",
  });
  const studentIds: readonly [string, string] = [pine.id, otter.id];
  return { groupId: group.id, studentIds, sessionId: session.id };
}
