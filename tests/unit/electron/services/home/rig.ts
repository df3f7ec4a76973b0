import { afterEach } from "vitest";
import { openDesktop } from "../../../../../electron/host/desktop.ts";
import { Refusal } from "../../../../../electron/services/base/refusal.ts";
import type { AgreedAnswer, AgreedLine } from "../../../../../shared/home/agreed.ts";
import { noRules } from "../../../../../shared/plan/earning.ts";
import { firstPlan, type PlanSettings } from "../../../../../shared/plan/plan.ts";
import { addStudents } from "../../../../setup/add-students.ts";
import { manualClock } from "../../../../support/manual-clock.ts";
import { monday, temporaryFolder } from "../../store/temporary-folder.ts";
import { caller } from "../services.ts";

const open: { close(): Promise<void> }[] = [];
afterEach(async () => {
  for (const each of open.splice(0)) await each.close();
});

/** A class of three on a real store with a real conductor; its plan pays a point a mark and one more for on. */
export async function desktopClass(change: Partial<PlanSettings> = {}) {
  const clock = manualClock({ wallMs: monday, offsetMinutes: 0 });
  const folder = temporaryFolder();
  const options = { folder, clock, host: "loopback", version: "1" } as const;
  const desktop = await openDesktop(options);
  open.push(desktop);
  const { groups, plans, sessions, agreed } = desktop.handlers;
  const { id: groupId } = await groups.create({ name: "Room 4", target: "" }, caller);
  const added = await addStudents(desktop.handlers, groupId, ["Pine", "Otter", "Wren"], caller);
  const [pine = "", otter = "", wren = ""] = added.map(({ id }) => id);
  const [plan] = await plans.list({ groupId }, caller);
  if (plan === undefined) throw new Error("no plan");
  const earning = { kind: "own", rules: { ...noRules, mark: 1, on: 1 }, takes: true } as const;
  const settings: PlanSettings = {
    ...firstPlan,
    recording: "paper",
    cueing: "silent",
    earning,
    ...change,
  };
  await plans.update({ id: plan.id, name: plan.name, settings }, caller);
  return {
    ...desktop.handlers,
    desktop,
    clock,
    folder,
    groupId,
    pine,
    otter,
    wren,
    /** Starts seatwork; the same cues each time. */
    start: () =>
      sessions.start({ groupId, planId: plan.id, kind: "seatwork", seed: "otter" }, caller),
    say: (studentId: string, line: AgreedLine, answer: AgreedAnswer, who = "") =>
      agreed.say({ studentId, said: { line, answer, day: "2026-03-02", who } }, caller),
    /** Closes the app and opens it again on the same folder. */
    async again() {
      await desktop.close();
      const next = await openDesktop(options);
      open.push(next);
      return next;
    },
  };
}

export async function refused(work: () => unknown): Promise<string> {
  try {
    await work();
  } catch (error) {
    if (error instanceof Refusal) return error.code;
    throw error;
  }
  return "not refused";
}
