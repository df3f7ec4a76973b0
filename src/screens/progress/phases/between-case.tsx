import type { GroupReading } from "../../../../shared/reading/group-reading.ts";
import { useVoice } from "../../../words/use-voice.ts";

/** The effect that a review of several studies asks for; one click deeper than the plain words. */
export function BetweenCase({ betweenCase }: Pick<GroupReading, "betweenCase">) {
  const { say, formats } = useVoice();
  if (betweenCase.kind === "not-enough") {
    return (
      <p className="progress-facts">{say("designs.betweenCaseNone", { have: betweenCase.have })}</p>
    );
  }
  const { g, interval, students } = betweenCase;
  const written = (value: number) => formats.number(value, 2).replace("-", "−");
  return (
    <p>
      {say("designs.betweenCase", {
        students,
        g: written(g),
        low: written(interval.lower),
        high: written(interval.upper),
      })}
    </p>
  );
}
