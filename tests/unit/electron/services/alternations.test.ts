import { expect, test } from "vitest";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import { drawAlternation } from "../../../../shared/reading/drawn/drawn-alternation.ts";
import { caller, makeGroup, nobody, openServices, refusalOf } from "./services.ts";

const named = { nameA: "With music", nameB: "In quiet", sessions: 10, seed: "kiwi", times: 1 };

function holdSession({ store, clock }: ReturnType<typeof openServices>, groupId: string) {
  return store.sessions.create({
    groupId,
    kind: "seatwork",
    planName: "First plan",
    plan: firstPlan,
    seed: "paper",
    startedMs: clock.wallMs(),
    offsetMinutes: 0,
    day: "2026-03-02",
  });
}

test("the order follows from the seed, and each session takes the next turn of it", async () => {
  const services = openServices();
  const { alternations, store } = services;
  const { group } = await makeGroup(services, ["Pine"]);
  const groupId = group.id;
  const made = await alternations.create({ groupId, ...named }, caller);
  expect(made).toMatchObject({ order: drawAlternation("kiwi", 10), times: 1, sessions: [] });
  const turns = Array.from({ length: 12 }, () => {
    const session = holdSession(services, groupId);
    return store.alternations.takeTurn(groupId, session.id);
  });
  expect(turns).toEqual([...made.order, null, null]);
  const [kept] = await alternations.list({ groupId }, caller);
  expect(kept?.sessions.map(({ place }) => place)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
});

test("one pair at a time takes turns in a group; taken away, the sessions stay", async () => {
  const services = openServices();
  const { alternations, store } = services;
  const { group } = await makeGroup(services, ["Pine"]);
  const groupId = group.id;
  const { id } = await alternations.create({ groupId, ...named }, caller);
  const refusal = await refusalOf(() => alternations.create({ groupId, ...named }, caller));
  expect(refusal).toMatchObject({ code: "alternation-open", values: { group: "Room 4" } });
  const session = holdSession(services, groupId);
  store.alternations.takeTurn(groupId, session.id);
  await alternations.remove({ id }, caller);
  expect(await alternations.list({ groupId }, caller)).toEqual([]);
  expect(store.sessions.get(session.id)).not.toBeNull();
  expect(() => alternations.remove({ id: nobody }, caller)).toThrow(/alternation/);
});

test("an erased student's name goes out of the conditions, and a removed group takes them along", async () => {
  const services = openServices();
  const { alternations, store } = services;
  const { group, students } = await makeGroup(services, ["Willow", "Otter"]);
  const groupId = group.id;
  await alternations.create({ groupId, ...named, nameA: "Willow in front" }, caller);
  store.alternations.takeTurn(groupId, holdSession(services, groupId).id);
  store.eraseStudent(students[0]?.id ?? "");
  expect(await alternations.list({ groupId }, caller)).toMatchObject([{ nameA: "… in front" }]);
  store.removeGroup(groupId);
  expect(store.groups.get(groupId)).toBeNull();
});
