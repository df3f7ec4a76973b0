import { expect, test, vi } from "vitest";
import { caller, letEarn, makeGroup, openServices, refusalOf } from "./services.ts";

async function withPairs(names = ["Ash", "Birch", "Cedar", "Elm", "Fir"]) {
  const services = openServices();
  const { group, students } = await makeGroup(services, names);
  const groupId = group.id;
  letEarn(services, groupId);
  const begin = (absentIds: string[] = []) => {
    services.clock.advance(1_000);
    return services.pairs.begin({ groupId, absentIds, points: 2 }, caller);
  };
  const balances = () => students.map(({ id }) => services.store.ledger.balance(id));
  return { services, groupId, ids: students.map(({ id }) => id), begin, balances };
}

test("1. lessons follow each other, and each is kept with its roles", async () => {
  const { services, groupId, ids, begin } = await withPairs();
  const first = await begin();
  expect(first.parts).toHaveLength(5);
  expect(first.parts.filter(({ pair }) => pair === null).map(({ studentId }) => studentId)).toEqual(
    [ids[0]],
  );
  const second = await begin();
  const out = second.parts.filter(({ pair }) => pair === null);
  expect(out.map(({ studentId }) => studentId)).toEqual([ids[1]]);
  const { lessons } = await services.pairs.state({ groupId }, caller);
  expect(lessons.map(({ id }) => id)).toEqual([first.id, second.id]);
});

test("2. who is absent is in no pair, and one alone makes none", async () => {
  const { ids, begin } = await withPairs();
  const absent = ids.slice(0, 2);
  const { parts } = await begin(absent);
  expect(parts.map(({ studentId }) => studentId).toSorted()).toEqual(ids.slice(2).toSorted());
  expect((await refusalOf(() => begin(ids.slice(1)))).code).toBe("pairs-too-few");
});

test("3. a pair that corrected its papers earns once, and who joined it too", async () => {
  const { services, ids, begin, balances } = await withPairs();
  const lesson = await begin();
  const correct = (studentIds: string[], corrected: boolean) =>
    services.pairs.correct({ lessonId: lesson.id, studentIds, corrected }, caller);
  const pair = lesson.parts.filter(({ pair: number }) => number === 1);
  const inPair = pair.map(({ studentId }) => studentId);
  await correct(inPair, true);
  await correct(inPair, true);
  expect(balances()).toEqual(ids.map((id) => (inPair.includes(id) ? 2 : 0)));
  await correct([ids[0] ?? ""], true);
  expect(balances()[0]).toBe(2);
  await correct(inPair, false);
  expect(balances()).toEqual(ids.map((_, at) => (at === 0 ? 2 : 0)));
});

test("4. a lesson that was not held goes, with what it paid", async () => {
  const { services, groupId, ids, begin, balances } = await withPairs();
  const lesson = await begin();
  await services.pairs.correct({ lessonId: lesson.id, studentIds: ids, corrected: true }, caller);
  expect(balances()).toEqual(ids.map(() => 2));
  await services.pairs.remove({ lessonId: lesson.id }, caller);
  expect(balances()).toEqual(ids.map(() => 0));
  expect((await services.pairs.state({ groupId }, caller)).lessons).toEqual([]);
  const again = await begin();
  const pairsOf = ({ parts }: typeof again) =>
    parts.map(({ studentId, pair, taught }) => [studentId, pair, taught]).toSorted();
  expect(pairsOf(again)).toEqual(pairsOf(lesson));
});

test("5. where the ledger cannot be written no pair counts as corrected", async () => {
  const { services, groupId, begin, balances } = await withPairs();
  const lesson = await begin();
  const { ledger } = services.store;
  const add = ledger.add;
  let written = 0;
  const failing = vi.spyOn(ledger, "add").mockImplementation((entry) => {
    written += 1;
    if (written === 2) throw new Error("The disk is gone");
    add(entry);
  });
  const studentIds = lesson.parts.map(({ studentId }) => studentId);
  const ask = () =>
    services.pairs.correct({ lessonId: lesson.id, studentIds, corrected: true }, caller);
  expect(ask).toThrow("The disk is gone");
  failing.mockRestore();
  expect(balances()).toEqual(balances().map(() => 0));
  const { lessons } = await services.pairs.state({ groupId }, caller);
  expect(lessons[0]?.parts.some(({ corrected }) => corrected)).toBe(false);
  await ask();
  expect(balances()).toEqual(balances().map(() => 2));
});

test("6. who was agreed to earn no points gets none for corrected papers, and keeps what came before", async () => {
  const { services, ids, begin, balances } = await withPairs(["Ash", "Birch"]);
  const no = { line: "points", answer: "no", day: "2026-03-02", who: "" } as const;
  const lesson = await begin();
  const correct = (lessonId: string) =>
    services.pairs.correct({ lessonId, studentIds: ids, corrected: true }, caller);
  await correct(lesson.id);
  services.store.agreed.add(ids[0] ?? "", no, services.clock.wallMs());
  await correct((await begin()).id);
  expect(balances()).toEqual([2, 4]);
});

test("7. two windows make one lesson: the second is told", async () => {
  const { services, groupId } = await withPairs();
  const begin = (lessons: number) =>
    services.pairs.begin({ groupId, absentIds: [], points: 2, lessons }, caller);
  await begin(0);
  expect((await refusalOf(() => begin(0))).code).toBe("pairs-moved");
  await begin(1);
  expect((await services.pairs.state({ groupId }, caller)).lessons).toHaveLength(2);
});
