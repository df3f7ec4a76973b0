import type { CheckPair } from "../record/group-counts.ts";

/** A self-record and what an adult saw, in the order in which agreement compares them. */
export const asPair = ({ student, seen }: Pick<CheckPair, "student" | "seen">) => ({
  first: student,
  second: seen,
});
