import type { PlanSettings } from "../../../shared/plan/plan.ts";
import { chanceOfAtLeast } from "../../../shared/schedule/cue-count.ts";
import { verdictBounds } from "../../../shared/schedule/guess.ts";
import type { PlanGuess } from "../../compute/use-computed.ts";
import { useFormats, useSay } from "../../text/text.tsx";

/** What the fewest-cues floor does to a plan that can be run: how often it bites, and what it gives away. */
export function FloorNote({ settings, guess }: { settings: PlanSettings; guess: PlanGuess }) {
  const say = useSay();
  const formats = useFormats();
  if (settings.fewestCues === 0) return null;
  const { method, floorGivesAway } = guess.found;
  const redrawn = 1 - chanceOfAtLeast(settings, settings.fewestCues);
  const values = {
    redrawn: formats.number(100 * redrawn),
    gain: formats.number(100 * floorGivesAway),
  };
  return (
    <p className="plan-caution" role="status">
      {!guess.isFinal
        ? say("wait")
        : method === "exact"
          ? say("plan.floor.idle")
          : say("plan.floor.bites", values)}
      {floorGivesAway >= verdictBounds.canBeGuessed ? ` ${say("plan.floor.lower")}` : ""}
    </p>
  );
}
