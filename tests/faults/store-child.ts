import { openStore } from "../../electron/store/store.ts";
import { firstPlan } from "../../shared/plan/plan.ts";

// A process to be killed: opens the folder it is given, says so, and appends marks as fast as it can,
// telling of each one only after the store has acknowledged it.

const [, , folder, task] = process.argv;
if (folder === undefined) throw new Error("Give the data folder");
const tell = (line: string) => process.stdout.write(`${line}\n`);

const store = openStore({ folder, now: () => Date.UTC(2026, 2, 2, 10) });
tell("open");
if (task === "append") appendForEver();
else setInterval(() => {}, 1_000);

function appendForEver(): void {
  const group = store.groups.create({ name: "Room 4", target: "", isSample: false }, 0);
  const [student] = store.students.add(group.id, ["Pine"], 0);
  if (student === undefined) throw new Error("Nobody was added");
  const session = store.sessions.create({
    groupId: group.id,
    kind: "seatwork",
    planName: "First plan",
    plan: firstPlan,
    seed: "kill",
    startedMs: 0,
    offsetMinutes: 0,
    day: "2026-03-02",
  });
  tell(`session ${session.id}`);
  // One at a time, so that each line leaves this process before the next mark is written.
  const next = () => {
    const body = {
      kind: "mark",
      studentId: student.id,
      cue: 1,
      value: "on",
      way: "screen",
      late: false,
    } as const;
    const event = store.log.append(session.id, body, { atMs: 0, wallMs: 0, offsetMinutes: 0 });
    process.stdout.write(`seq ${event.stamp.seq}\n`, next);
  };
  next();
}
