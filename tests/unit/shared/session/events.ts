import type { SessionEvent, SessionEventBody } from "../../../../shared/session/event.ts";

/** Ids of invented students. */
export const ada = "0190a000-0000-7000-8000-000000000001";
export const ben = "0190a000-0000-7000-8000-000000000002";
export const cleo = "0190a000-0000-7000-8000-000000000003";

/** A body, or a body and its session time in ms. */
export type Entry = SessionEventBody | { readonly body: SessionEventBody; readonly atMs: number };

/** The same body at a session time in ms. */
export const at = (atMs: number, body: SessionEventBody): Entry => ({ body, atMs });

/** A log of these events, one second of session time apart unless an entry says when. */
export function logOf(...entries: readonly Entry[]): SessionEvent[] {
  return entries.map((entry, index) => {
    const { body, atMs } = "body" in entry ? entry : { body: entry, atMs: index * 1_000 };
    const wallMs = 1_700_000_000_000 + atMs;
    return { stamp: { seq: index + 1, atMs, wallMs, offsetMinutes: 60 }, body };
  });
}

export const begun: SessionEventBody = { kind: "begun" };
export const announced = (cue: number): SessionEventBody => ({ kind: "announced", cue });
export const delivered = (cue: number): SessionEventBody => ({
  kind: "delivered",
  cue,
  by: "sound",
  latenessMs: 4,
  problem: null,
});
export const mark = (
  studentId: string,
  cue: number,
  value: "on" | "off" | "none",
  way: "screen" | "paper" = "screen",
): SessionEventBody => ({ kind: "mark", studentId, cue, value, way, late: false });
