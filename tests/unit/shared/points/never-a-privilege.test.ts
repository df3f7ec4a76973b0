import { expect, it } from "vitest";
import { neverAPrivilege } from "../../../../shared/points/never-a-privilege.ts";

it.each([
  ["Five minutes more recess", "recess"],
  ["Ir al baño", "baño"],
  ["Un vaso de AGUA", "AGUA"],
  ["Call the family", "family"],
])("%s is warned of", (name, word) => {
  expect(neverAPrivilege(name)).toBe(word);
});

it.each([
  "Choose my seat",
  "Break the tie in a game of words? No: choose the game",
  "Read to the class",
])("%s", (name) => {
  // A verb of the same letters is asked about too: a warning costs one look.
  expect(neverAPrivilege(name)).toBe(name.startsWith("Break") ? "Break" : null);
});
