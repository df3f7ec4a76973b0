import type { StudentReading } from "../../shared/reading/student-reading.ts";
import type { Voice } from "./words.ts";

/** Both weeks' rates, before they are compared; empty when there are no two weeks. */
export function weekRates(
  { say, formats }: Voice,
  name: string,
  { self }: Pick<StudentReading, "self">,
): string {
  const { weekChange, weeks } = self;
  if (weekChange.kind === "not-enough") return "";
  const rateOf = (monday: string) => {
    const pooled = weeks.find(({ start }) => start === monday)?.pooled;
    return pooled?.kind === "enough" ? formats.percent(pooled.rate) : "";
  };
  return say("progress.weekRates", {
    name,
    now: rateOf(weekChange.week),
    before: rateOf(weekChange.before),
  });
}
