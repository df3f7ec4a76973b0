import { expect, test } from "vitest";
import { withoutName } from "../../../../../electron/store/erasing/without-name.ts";

test("1. a name goes wherever it stands as a word, however its accents and spaces are written", () => {
  expect(withoutName("José ran; Jose\u0301 sat.", "José")).toBe("… ran; … sat.");
  expect(withoutName("José ran", "Jose\u0301")).toBe("… ran");
  expect(withoutName("Ana  Reed, Ana\u00a0Reed and Ana\nReed", "Ana Reed")).toBe("…, … and …");
});

test("2. a longer name is not that name, also where only a mark follows", () => {
  expect(withoutName("Jose\u0301 and Josefa", "Jose")).toBe("Jose\u0301 and Josefa");
  expect(withoutName("عمرو", "عمر")).toBe("عمرو");
  expect(withoutName("أهلا عمر.", "عمر")).toBe("أهلا ….");
});

test("3. what means something in a pattern is only a letter of a name", () => {
  expect(withoutName("(B.+) and B.J.", "B.J.")).toBe("(B.+) and …");
  expect(withoutName("$& \\d", "\\d{1}")).toBe("$& \\d");
  expect(withoutName("with $& again", "with")).toBe("… $& again");
});

test("4. initials stay: they name nobody to others", () => {
  expect(withoutName("A.B and Jo", "Jo")).toBe("A.B and Jo");
});
