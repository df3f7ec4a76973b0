import type { SessionEventBody } from "../../../../shared/session/event.ts";
import { replay } from "../../../../shared/session/reduce.ts";
import type { SessionState } from "../../../../shared/session/state.ts";

export const ada = "019ab000-0000-7000-8000-00000000000a";
export const ben = "019ab000-0000-7000-8000-00000000000b";

/** What was said, at a session time in ms where it matters. */
export type Said = SessionEventBody | readonly [atMs: number, body: SessionEventBody];

export function stateOf(...said: readonly Said[]): SessionState {
  let now = 0;
  return replay(
    said.map((each, at) => {
      const [atMs, body] = "kind" in each ? [now, each] : each;
      now = atMs;
      return { stamp: { seq: at + 1, atMs, wallMs: atMs, offsetMinutes: 0 }, body };
    }),
  );
}

export const begun = { kind: "begun" } as const;
export const ended = { kind: "ended", reason: "finished" } as const;
export const delivered = (cue: number): SessionEventBody => ({
  kind: "delivered",
  cue,
  by: "sound",
  latenessMs: 0,
  problem: null,
});
export const mark = (
  studentId: string,
  cue: number,
  value: "on" | "off" | "none",
  way: "screen" | "paper" = "screen",
): SessionEventBody => ({ kind: "mark", studentId, cue, value, way, late: false });
export const check = (
  studentId: string,
  cue: number,
  value: "on" | "off" | "unseen",
): SessionEventBody => ({ kind: "spot-check", studentId, cue, value });
