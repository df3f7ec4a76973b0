import { expect, test } from "vitest";
import { decideStart } from "../../../../src/sound/decide-start.ts";

const ready = { nowMs: 10_000, dueAtMs: 11_000, status: "ready", chime: "loaded" } as const;

test.each([
  [
    "well ahead: wait until two seconds before",
    { dueAtMs: 70_000 },
    { kind: "wait", untilMs: 68_000 },
  ],
  ["two seconds ahead: start", { dueAtMs: 12_000 }, { kind: "start" }],
  ["due now: start", { dueAtMs: 10_000 }, { kind: "start" }],
  ["a second late: start", { dueAtMs: 9000 }, { kind: "start" }],
  ["later than that: fail", { dueAtMs: 8999 }, { kind: "fail", reason: "too-late" }],
  ["locked: hold", { status: "locked" }, { kind: "hold" }],
  [
    "locked and late: say locked",
    { status: "locked", dueAtMs: 8000 },
    { kind: "fail", reason: "locked" },
  ],
  [
    "suspended and late: say so",
    { status: "suspended", dueAtMs: 8000 },
    { kind: "fail", reason: "suspended" },
  ],
  [
    "no device and late: say so",
    { status: "device-lost", dueAtMs: 8000 },
    { kind: "fail", reason: "device-lost" },
  ],
  ["still loading: hold", { chime: "loading" }, { kind: "hold" }],
  [
    "still loading and late: fail",
    { chime: "loading", dueAtMs: 8000 },
    { kind: "fail", reason: "load-failed" },
  ],
  ["locked, at its moment: hold a little", { status: "locked", dueAtMs: 9900 }, { kind: "hold" }],
  [
    "locked, past that: fail, so that it is seen",
    { status: "locked", dueAtMs: 9849 },
    { kind: "fail", reason: "locked" },
  ],
  [
    "cannot be loaded: not before its moment",
    { chime: "failed" },
    { kind: "wait", untilMs: 11_000 },
  ],
  [
    "cannot be loaded, at its moment: fail",
    { chime: "failed", dueAtMs: 10_000 },
    { kind: "fail", reason: "load-failed" },
  ],
] as const)("%s", (_case, situation, decision) => {
  expect(decideStart({ ...ready, ...situation })).toEqual(decision);
});
