import { describe, expect, it } from "vitest";
import { studentSchema } from "../../../shared/api/roster.ts";
import { pictureLabel, pictureNamed, pictureNames } from "../../../src/pictures/picture-names.ts";
import { catalogues } from "../../../src/text/catalogue.ts";

describe("the built-in pictures", () => {
  it("are sixteen, each with a name that can be stored", () => {
    expect(new Set(pictureNames).size).toBe(16);
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
