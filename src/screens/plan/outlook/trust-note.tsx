import type { PlanSettings } from "../../../../shared/plan/plan.ts";
import { expectedCues } from "../../../../shared/schedule/kept-counts.ts";
import { fewestForOneSession, sessionReach } from "../../../../shared/schedule/precision.ts";
import { useFormats, useSay } from "../../../text/text.tsx";

/** Numbers of cues to hold the plan's own against. */
const compared = { few: 10, some: 20, many: 40 } as const;

/** How many cues a session needs before its rate can be read by itself. */
export function TrustNote({ plan }: { plan: PlanSettings }) {
  const say = useSay();
  const formats = useFormats();
  const cues = Math.max(1, Math.round(expectedCues(plan)));
  const reach = (count: number) => formats.number(100 * sessionReach(count));
  return (
    <section aria-labelledby="trust-title">
      <h3 id="trust-title">{say("precision.trust.title")}</h3>
      <p>
        {say("precision.trust", {
          cues,
          reach: reach(cues),
          ...compared,
          fewReach: reach(compared.few),
          someReach: reach(compared.some),
          manyReach: reach(compared.many),
        })}{" "}
        {cues < fewestForOneSession
          ? say("precision.trust.weeks", { fewest: fewestForOneSession })
          : ""}
      </p>
    </section>
  );
}
