import type { StudentReading } from "../../shared/reading/student-reading.ts";
import type { Voice } from "./words.ts";

/** Both weeks' rates in the present phase, before they are compared; empty when there are no two weeks. */
export function weekRates(
  { say, formats }: Voice,
  name: string,
  { said, rates }: Pick<StudentReading, "said" | "rates">,
): string {
  const { week, phase, source } = said;
  // Rates are the student's own.
  if (week.kind === "not-enough" || source !== "self") return "";
  const rateOf = (monday: string) => {
    const found = rates.weekRates.findLast(
      (each) => each.week === monday && each.phase === (phase?.label ?? each.phase),
    );
    return found === undefined ? "" : formats.percent(found.rate);
  };
  return say("progress.weekRates", {
    name,
    now: rateOf(week.week),
    before: rateOf(week.before),
  });
}
