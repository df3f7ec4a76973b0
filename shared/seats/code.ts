/**
 * The letters of a seat's code: consonants that are told apart when read aloud or copied by hand, so that no
 * word comes out by chance. Common practice, no source.
 */
export const codeLetters = "BCDFGHJKMNPRSTVWXZ";
export const codeLength = 8;

/**
 * A code from bytes of chance, or null where too few of them were usable. Bytes that would favour the first
 * letters are passed over, so that all letters are equally likely.
 *
 * @param bytes drawn evenly; sixteen are nearly always enough
 *
 * Example: codeFrom([0, 1, 2, 3, 4, 5, 6, 7]) // "BCDFGHJK"
 */
export function codeFrom(bytes: Iterable<number>): string | null {
  const even = 256 - (256 % codeLetters.length);
  let code = "";
  for (const byte of bytes) {
    if (byte >= even) continue;
    code += codeLetters[byte % codeLetters.length];
    if (code.length === codeLength) return code;
  }
  return null;
}

/**
 * What was typed, as a code: capitals, without spaces and dashes; null when it cannot be one.
 *
 * Example: typedCode(" bcdf-ghjk ") // "BCDFGHJK"
 */
export function typedCode(typed: string): string | null {
  const code = typed.toUpperCase().replace(/[\s-]/g, "");
  if (code.length !== codeLength) return null;
  for (const letter of code) if (codeLetters.indexOf(letter) < 0) return null;
  return code;
}

/**
 * A code as it is printed, in two halves.
 *
 * Example: printedCode("BCDFGHJK") // "BCDF-GHJK"
 */
export const printedCode = (code: string): string => `${code.slice(0, 4)}-${code.slice(4)}`;
