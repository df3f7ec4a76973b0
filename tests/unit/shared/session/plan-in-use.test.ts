import { expect, it } from "vitest";
import { planInUse } from "../../../../shared/session/plan-in-use.ts";

const morning = { name: "Morning" };
const maths = { name: "Maths" };
const sat = (planName: string) => ({ kind: "seatwork", planName }) as const;

it.each([
  ["the first before any session", [], morning],
  ["that of the newest seatwork", [sat("Maths"), sat("Morning")], maths],
  ["an observation is no seatwork", [{ kind: "probe", planName: "Maths" } as const], morning],
  ["the first when the plan was renamed or removed since", [sat("Old")], morning],
])("the plan in use: %s", (_case, sessions, plan) => {
  expect(planInUse([morning, maths], sessions)).toBe(plan);
});

it("is none without a plan", () => {
  expect(planInUse([], [sat("Maths")])).toBeNull();
});
