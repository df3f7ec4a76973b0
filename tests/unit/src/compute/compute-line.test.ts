import { afterEach, expect, it, vi } from "vitest";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import { compute } from "../../../../src/compute/compute.ts";
import { computeAside } from "../../../../src/compute/compute-line.ts";

// Here nothing is built; the address is as a build names it.
vi.mock("../../../../src/compute/compute.worker.ts?worker&url", () => ({
  default: "/assets/compute.worker-built.js",
}));

/** A worker that takes every ask and answers none; its error comes when told. */
class DeadWorker extends EventTarget {
  static latest: DeadWorker | null = null;
  readonly asked: unknown[] = [];
  ended = false;

  constructor() {
    super();
    DeadWorker.latest = this;
  }

  postMessage(message: unknown): void {
    this.asked.push(message);
  }

  terminate(): void {
    this.ended = true;
  }
}

afterEach(() => vi.unstubAllGlobals());

it("answers each ask on its own where the worker cannot run, also beside one that cannot be computed", async () => {
  vi.stubGlobal("Worker", DeadWorker);
  const good = { kind: "guess", plan: { ...firstPlan, fewestCues: 8 } } as const;
  // A plan that `checkPlan` refuses: `compute` throws a RangeError for it.
  const bad = { kind: "guess", plan: { ...firstPlan, lengthSeconds: -1 } } as const;
  expect(() => compute(bad)).toThrow(RangeError);

  const answers = Promise.allSettled([computeAside(bad), computeAside(good), computeAside(good)]);
  const worker = DeadWorker.latest;
  expect(worker?.asked).toHaveLength(3);
  worker?.dispatchEvent(new Event("error"));

  const [first, second, third] = await answers;
  expect(first).toMatchObject({ status: "rejected", reason: expect.any(RangeError) });
  expect(second).toEqual({ status: "fulfilled", value: compute(good) });
  expect(third).toEqual(second);
  expect(worker?.ended).toBe(true);
});
