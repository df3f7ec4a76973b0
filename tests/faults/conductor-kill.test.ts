import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import seedrandom from "seedrandom";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openStore } from "../../electron/store/store.ts";
import type { SessionEvent } from "../../shared/session/event.ts";
import { replay } from "../../shared/session/reduce.ts";
import { deliveredCues, unconfirmedCues } from "../../shared/session/state.ts";
import { builtChild } from "./built-child.ts";

let child = "";
beforeAll(async () => {
  child = await builtChild("conductor-child");
});

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

type Fact =
  | { readonly kind: "open"; readonly sessionId: string; readonly resumed: boolean }
  | { readonly kind: "rung" | "reported"; readonly cue: number }
  | { readonly kind: "acknowledged"; readonly event: SessionEvent }
  | { readonly kind: "closed" | "finished" }
  | { readonly kind: "failure"; readonly text: string };

interface Run {
  readonly facts: Fact[];
  readonly killed: boolean;
}

/** Runs the app until it finishes, or kills it `killAfterMs` after it has opened its session. */
function runApp(folder: string, seed: string, mode: string, killAfterMs: number | null) {
  return new Promise<Run>((resolve, reject) => {
    const app = spawn(process.execPath, [child, folder, seed, mode], {
      stdio: ["ignore", "pipe", "inherit"],
    });
    const facts: Fact[] = [];
    let killed = false;
    createInterface({ input: app.stdout }).on("line", (line) => {
      // The child of this test writes nothing else; a line cut short by the kill never ends.
      const fact = JSON.parse(line) as Fact;
      facts.push(fact);
      if (fact.kind !== "open" || killAfterMs === null) return;
      setTimeout(() => {
        killed = app.kill("SIGKILL");
      }, killAfterMs);
    });
    app.on("error", reject);
    app.on("close", () => resolve({ facts, killed }));
  });
}

/** Starts the app again and again after killing it, and closes or finishes its session at last. */
async function killedLife(seed: string, kills: number, last: "run" | "close") {
  const folder = mkdtempSync(join(tmpdir(), "pebblechime-kill-"));
  folders.push(folder);
  const random = seedrandom(seed);
  const runs: Run[] = [];
  for (let kill = 0; kill < kills; kill++) {
    const run = await runApp(folder, seed, "run", 20 + random() * 900);
    runs.push(run);
    if (!run.killed) break;
  }
  if (runs.at(-1)?.killed) runs.push(await runApp(folder, seed, last, null));
  const store = openStore({ folder, now: () => Date.now() });
  const facts = runs.flatMap((run) => run.facts);
  const [opened] = facts.filter((fact) => fact.kind === "open");
  const events = opened === undefined ? [] : store.log.read(opened.sessionId, 0);
  const sessions = store.sessions.list(null, 10).length;
  store.close();
  return { facts, events, sessions, killed: runs.filter((run) => run.killed).length };
}

function check({ facts, events, sessions }: Awaited<ReturnType<typeof killedLife>>) {
  expect(facts.filter(({ kind }) => kind === "failure")).toEqual([]);
  expect(sessions).toBe(1);
  // Nothing that was acknowledged is lost, and it is what was acknowledged.
  const bySeq = new Map(events.map((event) => [event.stamp.seq, event]));
  for (const fact of facts) {
    if (fact.kind === "acknowledged") expect(bySeq.get(fact.event.stamp.seq)).toEqual(fact.event);
  }
  expect(events.map(({ stamp }) => stamp.seq)).toEqual(events.map((_, index) => index + 1));
  // No cue was heard twice, and each that was reported is delivered, once.
  const rung = facts.flatMap((fact) => (fact.kind === "rung" ? [fact.cue] : []));
  expect(new Set(rung).size).toBe(rung.length);
  const deliveries = events.flatMap(({ body }) => (body.kind === "delivered" ? [body.cue] : []));
  expect(new Set(deliveries).size).toBe(deliveries.length);
  for (const fact of facts) if (fact.kind === "reported") expect(deliveries).toContain(fact.cue);
  const state = replay(events);
  expect(state.status).toBe("ended");
  expect(unconfirmedCues(state)).toEqual([]);
  expect(deliveredCues(state)).toEqual(deliveries.toSorted((first, second) => first - second));
  return state;
}

describe("the app is killed at random moments of a session", () => {
  for (const seed of ["ash", "birch", "cedar"]) {
    it(`and resumed each time (${seed})`, async () => {
      const life = await killedLife(seed, 3, "run");
      const state = check(life);
      expect(life.killed).toBeGreaterThan(0);
      expect(state.endReason).toBe("finished");
      expect(state.atMs).toBe(120_000);
      expect(deliveredCues(state).length).toBeGreaterThan(0);
    });
  }

  for (const seed of ["fir", "hazel"]) {
    it(`and closed at the next start (${seed})`, async () => {
      const life = await killedLife(seed, 1, "close");
      const state = check(life);
      expect(life.killed).toBe(1);
      expect(state.endReason).toBe("closed-later");
    });
  }
});
