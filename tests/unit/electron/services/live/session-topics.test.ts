import { expect, it } from "vitest";
import { touchedTopics } from "../../../../../electron/services/live/session-topics.ts";
import type { SessionEvent } from "../../../../../shared/session/event.ts";

const stamp = { seq: 1, atMs: 0, wallMs: 0, offsetMinutes: 0 };
const event = (body: SessionEvent["body"]): SessionEvent => ({ stamp, body });
const onGoing = () => true;
const over = () => false;

const unreached = event({ kind: "undelivered", studentId: "oak", cue: 3, reason: "seat-absent" });

it("a cue that did not reach one student touches no page while the session goes on", () => {
  expect(touchedTopics([unreached], onGoing)).toEqual([]);
});

it("it touches the records when its verdict comes after the session", () => {
  expect(touchedTopics([unreached], over)).toEqual(["records"]);
});

it("the end of a session touches the records with whatever was left open, each once", () => {
  const ended = event({ kind: "ended", reason: "finished" });
  expect(touchedTopics([unreached, ended], over)).toEqual(["records", "sessions", "points"]);
  expect(touchedTopics([event({ kind: "announced", cue: 1 }), ended], onGoing)).toEqual([
    "sessions",
    "records",
    "points",
  ]);
});

it("a mark made in time is heard of through the session's own stream alone", () => {
  const mark = { kind: "mark", studentId: "oak", cue: 1, value: "on", way: "screen" } as const;
  expect(touchedTopics([event({ ...mark, late: false })], onGoing)).toEqual([]);
  expect(touchedTopics([event({ ...mark, late: true })], onGoing)).toContain("records");
});
