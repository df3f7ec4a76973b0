import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  codeFrom,
  codeLength,
  codeLetters,
  printedCode,
  typedCode,
} from "../../../../shared/seats/code.ts";

describe("a seat's code", () => {
  it("has eight letters of its alphabet, from any bytes of chance, and none from too few", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 40 }), (bytes) => {
        const code = codeFrom(bytes);
        const usable = [...bytes].filter((byte) => byte < 252).length;
        if (usable < codeLength) expect(code).toBeNull();
        else expect(code).toMatch(new RegExp(`^[${codeLetters}]{8}$`));
      }),
    );
  });

  it("takes each letter equally often: 252 of the 256 bytes, 14 for each of 18 letters", () => {
    const drawn = Array.from({ length: 256 }, (_, byte) => codeFrom(Array(8).fill(byte))?.[0]);
    for (const letter of codeLetters) {
      expect(drawn.filter((each) => each === letter)).toHaveLength(14);
    }
    expect(drawn.filter((each) => each === undefined)).toHaveLength(4);
  });

  it("is read as it is printed, in small letters and with spaces", () => {
    fc.assert(
      fc.property(fc.uint8Array({ minLength: 30, maxLength: 30 }), (bytes) => {
        const code = codeFrom(bytes);
        fc.pre(code !== null);
        expect(typedCode(printedCode(code))).toBe(code);
        expect(typedCode(` ${code.toLowerCase().slice(0, 4)} ${code.slice(4)} `)).toBe(code);
      }),
    );
    for (const wrong of ["", "BCDF", "BCDFGHJI", "BCDFGHJKM", "1234-5678"]) {
      expect(typedCode(wrong)).toBeNull();
    }
  });
});
