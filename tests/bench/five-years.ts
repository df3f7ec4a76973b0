import { openStore, type Store } from "../../electron/store/store.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import { randomStream } from "../../shared/schedule/stream.ts";

const dayMs = 86_400_000;
export const size = { students: 36, sessions: 900, cues: 10 };

/**
 * Fills a folder with five invented school years of one class: 36 students, 900 sessions, 10 cues each.
 *
 * @param cueing with own cues each student's are announced and delivered alone: 720 rows a session beside
 *   the answers, where the class's are 20
 */
export function fillFiveYears(
  folder: string,
  from = Date.UTC(2021, 8, 6, 9),
  cueing: "class" | "own" = "class",
): string {
  const store = openStore({ folder, now: () => from });
  try {
    return store.transaction(() => fill(store, from, cueing === "own"));
  } finally {
    store.close();
  }
}

function fill(store: Store, from: number, isOwn: boolean): string {
  const draw = randomStream("five years", "marks");
  const group = store.groups.create(
    { name: "Invented class", target: "", isSample: false },
    from - dayMs,
  );
  const names = Array.from({ length: size.students }, (_, index) => `Student ${index + 1}`);
  const studentIds = store.students.add(group.id, names, from - dayMs).map(({ id }) => id);
  for (let index = 0; index < size.sessions; index++) {
    const startedMs = from + index * 2 * dayMs;
    const { id } = store.sessions.create({
      groupId: group.id,
      kind: "seatwork",
      planName: "First plan",
      plan: isOwn ? { ...firstPlan, cueing: "own" } : firstPlan,
      seed: `five years ${index}`,
      startedMs,
      offsetMinutes: 0,
      day: new Date(startedMs).toISOString().slice(0, 10),
    });
    const stamp = (atMs: number) => ({ atMs, wallMs: startedMs + atMs, offsetMinutes: 0 });
    const begun = isOwn
      ? ({ kind: "begun", cueing: "own" } as const)
      : ({ kind: "begun" } as const);
    store.log.append(id, begun, stamp(0));
    for (let cue = 1; cue <= size.cues; cue++) {
      const at = stamp(cue * 120_000);
      for (const whose of isOwn ? studentIds.map((studentId) => ({ studentId })) : [{}]) {
        store.log.append(id, { kind: "announced", ...whose, cue }, at);
        const shown = { by: isOwn ? "sight" : "sound", latenessMs: 1, problem: null } as const;
        store.log.append(id, { kind: "delivered", ...whose, cue, ...shown }, at);
      }
      for (const studentId of studentIds) {
        const chance = draw();
        if (chance > 0.95) continue;
        const value = chance < 0.7 ? "on" : "off";
        store.log.append(
          id,
          { kind: "mark", studentId, cue, value, way: "screen", late: false },
          at,
        );
      }
    }
    store.log.append(id, { kind: "ended", reason: "finished" }, stamp(1_200_000));
  }
  return group.id;
}
