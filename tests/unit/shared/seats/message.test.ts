import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mostCues } from "../../../../shared/plan/most-cues.ts";
import {
  lateMarkMs,
  longestSeatMessageBytes,
  mostSeatCues,
} from "../../../../shared/seats/limits.ts";
import { fromSeatSchema, readFromSeat, toSeatSchema } from "../../../../shared/seats/message.ts";
import { seatMarksMs } from "../../../../shared/session/decide.ts";

describe("what a device says", () => {
  it("is read when it is one of the few messages, and is nothing otherwise, whatever comes", () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.json()), (text) => {
        const read = readFromSeat(text);
        if (read !== null) expect(fromSeatSchema.safeParse(read).success).toBe(true);
      }),
    );
  });

  it.each([
    ['{"kind":"hello","code":"bcdf-ghjk"}', { kind: "hello", code: "BCDFGHJK" }],
    ['{"kind":"hello","code":"short"}', null],
    ['{"kind":"alive","more":1}', null],
    ['{"kind":"mark","session":"a","cue":1,"value":"maybe"}', null],
    ['{"kind":"mark","session":"a","cue":1.5,"value":"on"}', null],
    ['{"kind":"give","press":"no-uuid","place":1,"amount":1}', null],
    ['{"kind":"ready","carriers":["sign","smell"]}', null],
  ])("%s", (text, read) => {
    expect(readFromSeat(text)).toEqual(read);
  });

  it("is never longer than its limit", () => {
    const text = JSON.stringify({ kind: "alive" });
    expect(readFromSeat(text + " ".repeat(longestSeatMessageBytes))).toBeNull();
  });

  it("has the fields of this list and no others, as the guide says of each beyond the first design", () => {
    const fieldsOf = (messages: readonly { readonly shape: object }[]) =>
      messages.map(({ shape }) => {
        const { kind, ...fields } = shape as { readonly kind: { readonly value: string } };
        return [kind.value, ...Object.keys(fields)].join(" ");
      });
    expect(fieldsOf(fromSeatSchema.options)).toEqual([
      "hello code",
      "ready carriers",
      "alive",
      "clock t",
      "began session cue by at",
      "mark session cue value",
      "away session cue away",
      "give press place amount",
      "take press place",
    ]);
    expect(fieldsOf(toSeatSchema.options)).toEqual([
      "seat number language look",
      "kept session marks",
      "unkept session cue why",
      "clock t at",
      "due session cue atServer",
      "cancelled session cue",
      "state is session points",
      "freed",
      "closed why",
      "places language points takes places",
      "done press",
      "refused press why",
    ]);
  });

  it("may name any cue that a session can have, and none beyond", () => {
    expect(mostSeatCues).toBe(mostCues);
    const began = (cue: number) =>
      JSON.stringify({ kind: "began", session: "a", cue, by: "sign", at: 1 });
    expect(readFromSeat(began(mostCues))).toMatchObject({ cue: mostCues });
    expect(readFromSeat(began(mostCues + 1))).toBeNull();
  });

  it("is late for the card after the same time as the session's rules say", () => {
    expect(lateMarkMs).toBe(seatMarksMs);
  });
});
