import { writeSync } from "node:fs";
import { systemClock } from "../../electron/services/base/clock.ts";
import { conductor } from "../../electron/services/live/conductor.ts";
import { openStore } from "../../electron/store/store.ts";
import { firstPlan } from "../../shared/plan/plan.ts";

// One run of the app, without pages: opens the data folder, starts a session or resumes or closes the one
// that is open, sounds its cues and marks them for three students. Says on its output what a class would
// have heard and what the store has acknowledged, each before anything else happens.

const [folder = "", seed = "", mode = "run"] = process.argv.slice(2);
const speed = 30;
const clock = systemClock(speed);
const store = openStore({ folder, now: clock.wallMs });
const say = (fact: unknown): void => void writeSync(1, `${JSON.stringify(fact)}\n`);

const running = conductor({
  clock,
  log: store.log,
  sessionOf: store.sessions.get,
  onWritten: () => {},
  onLive: () => {},
  report: (error) => say({ kind: "failure", text: String(error) }),
});

const openId = store.log.openSessionId();
const sessionId = openId ?? newSession();
say({ kind: "open", sessionId, resumed: openId !== null });

if (mode === "close") {
  running.end(sessionId);
  say({ kind: "closed" });
  finish();
}

const leaving = new AbortController();
void sound();
void mark();
if (openId === null) {
  const session = store.sessions.get(sessionId);
  if (session !== null) running.start(session);
} else running.resume(sessionId);

function newSession(): string {
  const group = store.groups.create({ name: "Invented", target: "", isSample: false }, 1);
  store.students.add(group.id, ["A", "B", "C"], 1);
  const facts = { startedMs: clock.wallMs(), offsetMinutes: 0, day: "2026-01-12", seed };
  const plan = { ...firstPlan, meanSeconds: 8, shortestGapSeconds: 2, lengthSeconds: 120 };
  const { id } = store.transaction(() => {
    const session = store.sessions.create({
      ...facts,
      groupId: group.id,
      kind: "seatwork",
      planName: "Dense",
      plan,
    });
    const stamp = { atMs: 0, wallMs: facts.startedMs, offsetMinutes: 0 };
    store.log.append(session.id, { kind: "begun" }, stamp);
    return session;
  });
  return id;
}

/** The window: rings each cue at its moment. */
async function sound(): Promise<void> {
  const timers = new Map<number, () => void>();
  for await (const call of running.cueCalls(sessionId, "child", "sound", leaving.signal)) {
    if (call.kind === "cancelled") timers.get(call.cue)?.();
    if (call.kind !== "announced") continue;
    const { cue } = call;
    const ring = () => {
      say({ kind: "rung", cue });
      const beganMonotonicMs = clock.monotonicMs();
      running.cueDelivered(sessionId, { cue, beganMonotonicMs, by: "sound", problem: null });
      say({ kind: "reported", cue });
    };
    timers.set(cue, clock.after(call.dueMonotonicMs - clock.monotonicMs(), ring));
  }
}

/** Three students answer each cue as soon as it is delivered. */
async function mark(): Promise<void> {
  const { groupId } = store.sessions.get(sessionId) ?? { groupId: "" };
  const students = store.students.list(groupId, false);
  const after = running.stateOf(sessionId).lastSeq;
  for await (const { body } of running.watch(sessionId, after, leaving.signal)) {
    if (body.kind === "ended") return finish();
    if (body.kind !== "delivered") continue;
    for (const [index, { id: studentId }] of students.entries()) {
      const value = (body.cue + index) % 3 === 0 ? "off" : "on";
      const { cue } = body;
      if (running.stateOf(sessionId).openCue !== cue) continue;
      const command = { kind: "mark", studentId, cue, value, way: "screen" } as const;
      const [event] = running.command(sessionId, command);
      if (event !== undefined) say({ kind: "acknowledged", event });
    }
  }
}

function finish(): void {
  say({ kind: "finished" });
  running.stop();
  store.close();
  process.exit(0);
}
