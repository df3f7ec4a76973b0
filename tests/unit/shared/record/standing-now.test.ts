import { expect, it } from "vitest";
import { standingNow } from "../../../../shared/record/standing-now.ts";
import { replay } from "../../../../shared/session/reduce.ts";
import { ada, begun, ben, cleo, delivered, logOf, mark } from "../session/events.ts";

// Words of our own for what an adult sees of a cue; no source.

const absent = (studentId: string) => ({ kind: "set-aside", studentId }) as const;
const here = (studentId: string) => ({ kind: "back", studentId }) as const;

it("says who has answered the newest cue, who has not and who is absent, and never what", () => {
  const state = replay(
    logOf(begun, absent(cleo), delivered(1), mark(ada, 1, "off"), mark(ben, 1, "on")),
  );
  expect([ada, ben, cleo].map((id) => standingNow(state, id, true))).toEqual([
    "answered",
    "answered",
    "absent",
  ]);
  const next = replay(logOf(begun, delivered(1), mark(ada, 1, "on"), delivered(2)));
  expect(standingNow(next, ada, true)).toBe("waiting");
  const takenBack = replay(logOf(begun, delivered(1), mark(ada, 1, "on"), mark(ada, 1, "none")));
  expect(standingNow(takenBack, ada, true)).toBe("waiting");
});

it("waits for nobody before the first cue, on paper, or who came after the cue", () => {
  expect(standingNow(replay(logOf(begun)), ada, true)).toBe("here");
  expect(standingNow(replay(logOf(begun, delivered(1))), ada, false)).toBe("here");
  const late = replay(logOf(begun, absent(ada), delivered(1), here(ada)));
  expect(standingNow(late, ada, true)).toBe("here");
});
