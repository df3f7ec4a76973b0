import { describe, expect, it } from "vitest";
import { ApiError, type ApiFailure } from "../../../../../src/api/api-error.ts";
import { reportUntilHeard } from "../../../../../src/live/giving/report-until-heard.ts";

/** Timers that run when the test says so. */
function handClock() {
  const waiting = new Set<() => void>();
  return {
    waiting,
    after(_ms: number, then: () => void) {
      waiting.add(then);
      return () => waiting.delete(then);
    },
    async pass() {
      for (const then of [...waiting]) {
        waiting.delete(then);
        then();
      }
      await settled();
    },
  };
}

const settled = () => new Promise((resolve) => setImmediate(resolve));
const failing = (failure: ApiFailure) => new ApiError(failure, "no");

function sendFailing(...errors: unknown[]) {
  const left = [...errors];
  const send = async () => {
    send.calls += 1;
    const error = left.shift();
    if (error !== undefined) throw error;
  };
  send.calls = 0;
  return send;
}

describe("a report of a cue", () => {
  it("is sent once when it arrives", async () => {
    const clock = handClock();
    const send = sendFailing();
    reportUntilHeard(send, clock.after);
    await settled();
    await clock.pass();
    expect(send.calls).toBe(1);
  });

  it("is sent again after a lost line and after a failure, until it arrives", async () => {
    const clock = handClock();
    const send = sendFailing(
      failing({ kind: "unreachable" }),
      failing({ kind: "failed", reference: "r" }),
      new Error("odd"),
    );
    reportUntilHeard(send, clock.after);
    await settled();
    for (let turn = 0; turn < 6; turn++) await clock.pass();
    expect(send.calls).toBe(4);
  });

  it.each<ApiFailure>([
    { kind: "refused", code: "session-ended", values: {} },
    { kind: "missing", what: "session" },
    { kind: "bad-input", issues: [] },
  ])("takes $kind for an answer", async (failure) => {
    const clock = handClock();
    const send = sendFailing(failing(failure));
    reportUntilHeard(send, clock.after);
    await settled();
    await clock.pass();
    expect(send.calls).toBe(1);
  });

  it("is given up when the window gives up its task, also while an attempt is under way", async () => {
    const clock = handClock();
    const send = sendFailing(...Array.from({ length: 9 }, () => failing({ kind: "unreachable" })));
    const stop = reportUntilHeard(send, clock.after);
    stop();
    await settled();
    await clock.pass();
    expect(send.calls).toBe(1);
    expect(clock.waiting.size).toBe(0);

    const other = reportUntilHeard(send, clock.after);
    await settled();
    other();
    await clock.pass();
    expect(send.calls).toBe(2);
  });
});
