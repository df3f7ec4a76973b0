import { writeSync } from "node:fs";
import { obeyed } from "../../electron/services/live/log-door.ts";
import { settling } from "../../electron/services/points/settling.ts";
import { openStore } from "../../electron/store/store.ts";
import { noRules } from "../../shared/plan/earning.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import type { SessionCommand } from "../../shared/session/decide.ts";
import { replay } from "../../shared/session/reduce.ts";

// One run of a session that earns, which kills itself with signal 9 at its Nth entry in the ledger: what was
// appended to the log is then written already, within the transaction, and not yet settled.

const [folder = "", dieAt = "0"] = process.argv.slice(2);
const startedMs = Date.UTC(2026, 2, 2, 10);
const store = openStore({ folder, now: () => startedMs });
let entries = 0;
const ledger: typeof store.ledger = {
  ...store.ledger,
  add(entry) {
    entries++;
    if (entries === Number(dieAt)) process.kill(process.pid, "SIGKILL");
    store.ledger.add(entry);
  },
};
const settled = settling({ ...store, ledger });
const rules = { ...noRules, mark: 1, on: 1, match: 7 };

const group = store.groups.create({ name: "Invented", target: "", isSample: false }, 1);
const students = store.students.add(group.id, ["A", "B"], 1);
const session = store.sessions.create({
  groupId: group.id,
  kind: "seatwork",
  planName: "Plan",
  plan: { ...firstPlan, earning: { kind: "own", rules } },
  seed: "lantern",
  startedMs,
  offsetMinutes: 0,
  day: "2026-03-02",
});

let minute = 0;
function ask(command: SessionCommand): void {
  minute++;
  const stamp = { atMs: minute * 1_000, wallMs: startedMs + minute * 1_000, offsetMinutes: 0 };
  const state = replay(store.log.read(session.id, 0));
  const events = obeyed(settled, session.id, state, command, { stamp, sinceEndMs: 0 });
  writeSync(1, `${JSON.stringify(events.length)}\n`);
}

ask({ kind: "begin", absentIds: [] });
for (let cue = 1; cue <= 4; cue++) {
  ask({ kind: "announce", cue });
  ask({ kind: "deliver", cue, by: "sound", latenessMs: 0, problem: null });
  for (const [index, { id: studentId }] of students.entries()) {
    const value = (cue + index) % 3 === 0 ? "off" : "on";
    ask({ kind: "mark", studentId, cue, value, way: "screen" });
    ask({ kind: "spot-check", studentId, cue, value: "on" });
  }
  const press = `00000000-0000-4000-8000-00000000000${cue}`;
  ask({ kind: "give", studentId: students[0]?.id ?? "", amount: 2, why: "other", press });
}
ask({ kind: "end", reason: "finished" });
const changes = students.map(
  ({ id: studentId }) => ({ kind: "total", studentId, on: 1, off: 3, way: "paper" }) as const,
);
ask({ kind: "enter-cards", changes });
writeSync(1, `${JSON.stringify({ entries })}\n`);
store.close();
