import { describe, expect, it } from "vitest";
import { neverAPrivilege } from "../../../../shared/points/never-a-privilege.ts";
import english from "../../../../src/text/en/points.json";
import spanish from "../../../../src/text/es/points.json";

describe("what every child has", () => {
  it.each([
    ["a break", "Five minutes more recess", "recess"],
    ["a break", "Un DESCANSO largo", "DESCANSO"],
    ["food", "Lunch with the teacher", "Lunch"],
    ["food", "Merienda en el patio", "Merienda"],
    ["water", "A drink from the fountain", "drink"],
    ["water", "Un vaso de AGUA", "AGUA"],
    ["the toilet", "A restroom pass", "restroom"],
    ["the toilet", "Ir al baño", "baño"],
    ["sport", "Extra soccer", "soccer"],
    ["sport", "Educación física con otro grupo", "Educación física"],
    ["going home", "Go home five minutes early", "Go home"],
    ["going home", "Irme a casa antes", "Irme a casa"],
    ["the family", "Call the family", "family"],
    ["the family", "Llamar a mi mamá", "mamá"],
    // As it is typed without accents, and as some systems take letters apart.
    ["sport", "Futbol en el patio", "Futbol"],
    ["the toilet", "Ir al ban\u0303o", "baño"],
  ])("%s: “%s” is warned of", (_, name, word) => {
    expect(neverAPrivilege(name)).toBe(word);
  });

  it.each([
    ["Choose my seat", null],
    ["Read to the class", null],
    ["Breakdance with the class", null],
    ["Elegir el lugar", null],
    // A verb of the same letters is asked about too: a warning costs one look.
    ["Break the tie in a game of words? No: choose the game", "Break"],
  ])("%s: %s", (name, word) => {
    expect(neverAPrivilege(name)).toBe(word);
  });

  it("is in no list to start with", () => {
    const starts = [english, spanish].flatMap((catalogue) =>
      Object.entries(catalogue).filter(([key]) => key.startsWith("points.start.")),
    );
    expect(starts).toHaveLength(16);
    expect(starts.filter(([, name]) => neverAPrivilege(name) !== null)).toEqual([]);
  });
});
