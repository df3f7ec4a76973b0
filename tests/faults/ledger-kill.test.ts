import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import { afterAll, beforeAll, expect, it } from "vitest";
import { ledgerProblems } from "../../electron/services/points/invariant.ts";
import { settling } from "../../electron/services/points/settling.ts";
import { openStore } from "../../electron/store/store.ts";

const child = join(import.meta.dirname, "..", "..", "build", "faults", "ledger-child.mjs");
beforeAll(() =>
  build({
    entryPoints: [join(import.meta.dirname, "ledger-child.ts")],
    outfile: child,
    bundle: true,
    platform: "node",
    format: "esm",
    external: ["better-sqlite3"],
    banner: {
      js: 'import { createRequire } from "node:module"; const require = createRequire(import.meta.url);',
    },
  }),
);

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

function run(dieAt: number) {
  const folder = mkdtempSync(join(tmpdir(), "pebblechime-ledger-"));
  folders.push(folder);
  const { signal, stdout } = spawnSync(process.execPath, [child, folder, String(dieAt)], {
    encoding: "utf8",
  });
  const lines = stdout.trim().split("\n");
  return { folder, signal, lines };
}

it("a kill between what is appended and what it is worth leaves both or neither", () => {
  const whole = run(0);
  expect(whole.signal).toBeNull();
  const { entries }: { entries: number } = JSON.parse(whole.lines.at(-1) ?? "{}");
  expect(entries).toBeGreaterThan(20);
  for (let dieAt = 1; dieAt <= entries; dieAt++) {
    const { folder, signal, lines } = run(dieAt);
    expect(signal).toBe("SIGKILL");
    const acknowledged = lines.reduce((sum, line) => sum + Number(line), 0);
    const store = openStore({ folder, now: () => 0 });
    const [session] = store.sessions.list(null, 1);
    if (session === undefined) throw new Error("The session is gone");
    // Nothing acknowledged is lost, and nothing unacknowledged is half there.
    expect(store.log.read(session.id, 0)).toHaveLength(acknowledged);
    expect(store.ledger.settledSeq(session.id)).toBe(acknowledged);
    expect(settling(store).catchUpAll()).toBe(0);
    const isEnded = store.log.read(session.id, 0).some(({ body }) => body.kind === "ended");
    if (isEnded) expect(ledgerProblems(store, session.id)).toEqual([]);
    store.close();
  }
});

it("a log that is ahead of the ledger is caught up with at start, as if nothing had happened", () => {
  const { folder } = run(0);
  const store = openStore({ folder, now: () => 0 });
  const [session] = store.sessions.list(null, 1);
  if (session === undefined) throw new Error("The session is gone");
  const students = store.students.list(session.groupId, false);
  const total = { kind: "total", studentId: students[0]?.id ?? "", on: 4, off: 0 } as const;
  // Written past the ledger, as by a version that knew no points.
  const stamp = { atMs: 60_000, wallMs: session.startedMs + 60_000, offsetMinutes: 0 };
  store.log.append(session.id, { ...total, way: "paper" }, stamp);
  expect(ledgerProblems(store, session.id)).not.toEqual([]);
  expect(settling(store).catchUpAll()).toBe(1);
  expect(ledgerProblems(store, session.id)).toEqual([]);
  expect(settling(store).catchUpAll()).toBe(0);
  store.close();
});
