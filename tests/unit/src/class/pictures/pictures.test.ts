import { describe, expect, it } from "vitest";
import { studentSchema } from "../../../../../shared/roster/roster.ts";
import { drawings } from "../../../../../src/class/pictures/drawings.tsx";
import {
  haveOwnPictures,
  pictureOwners,
  picturesToGive,
} from "../../../../../src/class/pictures/own-pictures.ts";
import {
  pictureLabel,
  pictureNamed,
  pictureNames,
} from "../../../../../src/class/pictures/picture-names.ts";
import { catalogues } from "../../../../../src/text/catalogue.ts";

describe("the built-in pictures", () => {
  it("are enough for a class of thirty-six, each drawn its own way and with a name that can be stored", () => {
    expect(new Set(pictureNames).size).toBeGreaterThanOrEqual(36);
    expect(new Set(pictureNames.map((name) => JSON.stringify(drawings[name]))).size).toBe(
      pictureNames.length,
    );
    for (const name of pictureNames) {
      expect(studentSchema.shape.picture.safeParse(name).success).toBe(true);
    }
  });

  it("are called differently in each language, so that none is taken for another", () => {
    for (const language of ["en", "es"] as const) {
      const labels = pictureNames.map((name) => catalogues[language][pictureLabel(name)]);
      expect(new Set(labels).size).toBe(pictureNames.length);
    }
  });

  it("are none for a name that this version does not know", () => {
    expect(pictureNamed("leaf")).toBe("leaf");
    expect(pictureNamed("dragon of version 9")).toBeNull();
    expect(pictureNamed(null)).toBeNull();
  });
});

describe("pictures alone", () => {
  const student = (id: string, picture: string | null) => ({ id, name: id, picture });

  it("tell who is meant only when each student has one that nobody else has", () => {
    expect(haveOwnPictures([student("a", "kite"), student("b", "leaf")])).toBe(true);
    expect(haveOwnPictures([student("a", "kite"), student("b", "kite")])).toBe(false);
    expect(haveOwnPictures([student("a", "kite"), student("b", null)])).toBe(false);
    expect(haveOwnPictures([student("a", "dragon of version 9")])).toBe(false);
  });

  it("are given to those without, and none twice while there are enough", () => {
    const without = pictureNames.map((_, index) => student(`s${index}`, null));
    const all = [student("has", "leaf"), ...without.slice(1)];
    const given = new Map(picturesToGive(all).map(({ id, picture }) => [id, picture]));
    expect(given.has("has")).toBe(false);
    const after = all.map((one) => ({ ...one, picture: given.get(one.id) ?? one.picture }));
    expect(haveOwnPictures(after)).toBe(true);
    expect(picturesToGive([...after, student("late", null)])).toEqual([]);
  });

  it("are known by all who have them", () => {
    const having = pictureOwners([student("a", "kite"), student("b", "kite"), student("c", null)]);
    expect([...having].map(([name, who]) => [name, who.map(({ id }) => id)])).toEqual([
      ["kite", ["a", "b"]],
    ]);
  });
});
