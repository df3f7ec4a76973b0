import { openDesktop } from "../../electron/host/desktop.ts";
import { noRules } from "../../shared/plan/earning.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import { temporaryFolder } from "../e2e/support/temporary-folder.ts";
import { addStudents } from "../setup/add-students.ts";
import { manualClock } from "../support/manual-clock.ts";

/** Students of the class, and presses of points that are timed. */
const students = 24;
const presses = 1_000;

/**
 * How long the desktop side takes from an asked press to its event and its entry on the disk, with a full
 * flush, in a class of 24 whose session runs; times in ms.
 */
export async function timesUntilDurable(): Promise<number[]> {
  const folder = temporaryFolder();
  const clock = manualClock({ wallMs: Date.UTC(2026, 2, 2, 9), offsetMinutes: 0 });
  const desktop = await openDesktop({ folder: folder.path, clock, host: "loopback", version: "1" });
  try {
    const { groups, plans, sessions, points } = desktop.handlers;
    const caller = { clientId: "bench", signal: new AbortController().signal };
    const { id: groupId } = await groups.create({ name: "Invented", target: "" }, caller);
    const names = Array.from({ length: students }, (_, at) => `Leaf ${at + 1}`);
    const added = await addStudents(desktop.handlers, groupId, names, caller);
    const [plan] = await plans.list({ groupId }, caller);
    if (plan === undefined) throw new Error("The group has no plan.");
    const earning = { kind: "own", rules: { ...noRules, mark: 1, on: 1 } } as const;
    const settings = { ...firstPlan, earning };
    await plans.update({ id: plan.id, name: plan.name, settings }, caller);
    const asked = { groupId, planId: plan.id, kind: "seatwork", seed: "kiwi" } as const;
    const { id: sessionId } = await sessions.start(asked, caller);
    const times: number[] = [];
    for (let at = 0; at < presses; at++) {
      const studentId = added[at % students]?.id ?? "";
      const press = crypto.randomUUID();
      const begun = performance.now();
      await points.give({ sessionId, studentId, amount: 1, why: "kept-going", press }, caller);
      times.push(performance.now() - begun);
    }
    return times;
  } finally {
    await desktop.close();
    folder.remove();
  }
}
