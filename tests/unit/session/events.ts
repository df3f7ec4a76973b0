import type { SessionEvent, SessionEventBody } from "../../../shared/session/event.ts";

/** Ids of invented students. */
export const ada = "0190a000-0000-7000-8000-000000000001";
export const ben = "0190a000-0000-7000-8000-000000000002";
export const cleo = "0190a000-0000-7000-8000-000000000003";

/** A log of these events, one second of session time apart unless `[body, atMs]` says otherwise. */
export function logOf(
  ...entries: readonly (SessionEventBody | readonly [SessionEventBody, number])[]
): SessionEvent[] {
  return entries.map((entry, index) => {
    const isPair = Array.isArray(entry);
    // Array.isArray does not narrow a readonly tuple.
    const body = isPair ? (entry as readonly [SessionEventBody, number])[0] : entry;
    const atMs = isPair ? (entry as readonly [SessionEventBody, number])[1] : index * 1_000;
    return {
      stamp: { seq: index + 1, atMs, wallMs: 1_700_000_000_000 + atMs, offsetMinutes: 60 },
      // The pair was taken apart above; what is left is a body.
      body: body as SessionEventBody,
    };
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
