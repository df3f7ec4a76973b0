import { expect, it } from "vitest";
import { classLines } from "../../../../../electron/host/class-line.ts";
import { caller } from "../services.ts";
import { desktopClass, refused } from "./rig.ts";

it("keeps the newest words to each family over a restart, and takes them back", async () => {
  const here = await desktopClass();
  const { family, groupId, pine, otter } = here;
  await family.saveWords({ studentId: otter, words: "Settled in well." }, caller);
  await family.saveWords({ studentId: pine, words: "Began late." }, caller);
  await family.saveWords({ studentId: pine, words: "Begins at once now." }, caller);
  const again = await here.again();
  const words = again.handlers.family.words({ groupId }, caller);
  expect(await words).toEqual([
    { studentId: pine, words: "Begins at once now.", day: "2026-03-02" },
    { studentId: otter, words: "Settled in well.", day: "2026-03-02" },
  ]);
  await again.handlers.family.saveWords({ studentId: otter, words: "" }, caller);
  expect(await again.handlers.family.words({ groupId }, caller)).toHaveLength(1);
});

it("says who is not there, and tells the class's own line nothing", async () => {
  const { desktop, family, groupId, pine } = await desktopClass();
  const nobody = "019cadfd-8900-7001-8000-0000000000ff";
  await expect(async () =>
    family.saveWords({ studentId: nobody, words: "x" }, caller),
  ).rejects.toThrow();
  await family.saveWords({ studentId: pine, words: "Private." }, caller);
  const line = classLines(desktop.handlers)(() => null);
  expect(await refused(() => line.family.words({ groupId }, caller))).toMatch(/class-screen/);
});

it("never saves over words that another window wrote since", async () => {
  const { family, groupId, pine } = await desktopClass();
  await family.saveWords({ studentId: pine, words: "Begins at once.", before: "" }, caller);
  const late = () =>
    family.saveWords({ studentId: pine, words: "Began late.", before: "" }, caller);
  expect(await refused(late)).toBe("saved-elsewhere");
  const [kept] = await family.words({ groupId }, caller);
  expect(kept?.words).toBe("Begins at once.");
  await family.saveWords({ studentId: pine, words: "Now.", before: "Begins at once." }, caller);
});
