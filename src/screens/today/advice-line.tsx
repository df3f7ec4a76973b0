import { Link } from "react-router";
import { advise } from "../../../shared/advice/advice.ts";
import { adviceInputs } from "../../../shared/reading/advice-inputs.ts";
import type { Group } from "../../../shared/roster/roster.ts";
import type { ReadCounts } from "../../reading/counts-of-each.ts";
import { useDecisions, useProgram } from "../../reading/use-program.ts";
import { useReadAhead, useReading } from "../../reading/use-reading.ts";
import { wordDecision } from "../../words/advice-words.ts";
import { useVoice } from "../../words/use-voice.ts";
import { adviceAwaits, owesCheck } from "./awaits.ts";
import { WaitingItem } from "./waiting-item.tsx";

/** That a group's advice is to change something, until it was decided on; computed off the page's thread. */
export function AdviceLine({ group, counts }: { group: Group; counts: ReadCounts }) {
  const voice = useVoice();
  const { say } = voice;
  const program = useProgram(group.id);
  const [last] = useDecisions(group.id, null);
  const reading = useReading(counts, { kind: "next" }).data;
  useReadAhead(reading === undefined ? undefined : counts);
  if (program === undefined || reading?.kind !== "next") return null;
  const { newestMs, advice: material } = reading.reading;
  const advice = advise(adviceInputs(material, program));
  if (!adviceAwaits(advice.decision, newestMs, last?.decidedMs ?? null)) return null;
  // The line on the owed check says so already.
  if (advice.reason === "points-without-checks" && owesCheck(counts)) return null;
  const words = say("today.advice", { group: group.name, advice: wordDecision(voice, advice) });
  // Put aside, it waits again after the next session.
  return (
    <WaitingItem what={`advice ${advice.decision} ${group.id} ${newestMs ?? 0}`} named={words}>
      {words}{" "}
      <Link to={`/progress/${group.id}`} aria-label={say("today.decideFor", { group: group.name })}>
        {say("today.decide")}
      </Link>
    </WaitingItem>
  );
}
