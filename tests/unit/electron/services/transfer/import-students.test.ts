import { expect, test } from "vitest";
import { Missing } from "../../../../../electron/services/base/refusal.ts";
import { caller, makeGroup, nobody, openServices, refusalOf, topicsOf } from "../services.ts";

const student = (name: string) => ({ name, picture: null, target: "" });

test("1. a class is added after those who are there, with pictures and targets", async () => {
  const services = openServices();
  const { group } = await makeGroup(services, ["Pine"]);
  const rows = [{ name: "Fern", picture: "shell", target: "Pen moving" }, student("Robin")];
  const topics = await topicsOf(services, async () => {
    expect(
      await services.transfer.importStudents({ groupId: group.id, rows }, caller),
    ).toMatchObject({ sessions: 0, studentsAdded: 2 });
  });
  expect(topics).toEqual(["groups", "students", "records"]);
  const list = await services.students.list({ groupId: group.id, archived: false }, caller);
  expect(list).toMatchObject([student("Pine"), ...rows]);
});

test("2. names that somebody has, also twice in the file, refuse the whole by their places", async () => {
  const services = openServices();
  const { store, transfer } = services;
  const { group, students } = await makeGroup(services, ["Pine", "Otter"]);
  await services.students.archive({ id: students[1]?.id ?? "" }, caller);
  const rows = ["Fern", " PINE", "otter", "Robin", "fern"].map(student);
  const refusal = await refusalOf(() =>
    transfer.importStudents({ groupId: group.id, rows }, caller),
  );
  expect(refusal).toMatchObject({
    code: "import-names-taken",
    values: { count: 3, rows: "2-3, 5" },
  });
  expect(store.students.listAll(group.id)).toHaveLength(2);
  expect(store.imports.list(group.id)).toEqual([]);
});

test("3. a group does not grow beyond a hundred", async () => {
  const services = openServices();
  const { group } = await makeGroup(services, ["Pine"]);
  const rows = Array.from({ length: 100 }, (_, index) => student(`Name ${index}`));
  expect(
    await refusalOf(() => services.transfer.importStudents({ groupId: group.id, rows }, caller)),
  ).toMatchObject({ code: "import-too-large", values: { what: "students", have: 101, most: 100 } });
});

test("4. an undo removes who has no record, and keeps who has one", async () => {
  const services = openServices();
  const { store, transfer } = services;
  const { group } = await makeGroup(services, ["Pine"]);
  const groupId = group.id;
  const rows = ["Fern", "Robin"].map(student);
  const { importId } = await transfer.importStudents({ groupId, rows }, caller);
  expect(await transfer.imports({ groupId }, caller)).toMatchObject([
    { importId, sessions: 0, studentsAdded: 2 },
  ]);
  const record = {
    source: "self",
    on: 1,
    off: 1,
    missing: 0,
    phase: "",
    subject: "",
    work: null,
  } as const;
  await transfer.importSessions(
    { groupId, rows: [{ student: "Robin", startedAt: "2026-02-16T09:15:00Z", ...record }] },
    caller,
  );
  expect(await transfer.undoImport({ importId }, caller)).toEqual({
    sessionsRemoved: 0,
    studentsRemoved: 1,
    phasesRemoved: 0,
  });
  expect(store.students.listAll(groupId).map(({ name }) => name)).toEqual(["Pine", "Robin"]);
});

test("5. a group that is not there takes nobody", async () => {
  const { transfer } = openServices();
  await expect(async () =>
    transfer.importStudents({ groupId: nobody, rows: [student("Fern")] }, caller),
  ).rejects.toThrow(Missing);
});
