import type { RefusalCode } from "../../../shared/api/errors.ts";

/** The desktop side says no, for a reason that a teacher can act on. */
export class Refusal extends Error {
  readonly code: RefusalCode;
  readonly values: Readonly<Record<string, string | number>>;

  /**
   * @param code what the page words in its catalogues
   * @param message the same in one English sentence that says what to do
   * @param values what the sentence needs, such as the nearest number that would do
   */
  constructor(
    code: RefusalCode,
    message: string,
    values: Readonly<Record<string, string | number>> = {},
  ) {
    super(message);
    this.name = "Refusal";
    this.code = code;
    this.values = values;
  }
}

/** What the caller named is not there (any more). */
export class Missing extends Error {
  readonly what: string;

  constructor(what: string) {
    super(`This ${what} is not here any more. Go back and choose again.`);
    this.name = "Missing";
    this.what = what;
  }
}
