import { type LawName, lawNames, type PlanSettings } from "../../../../shared/plan/plan.ts";
import { Choices } from "../../../parts/field.tsx";
import { useSay } from "../../../text/text.tsx";
import { wordSeconds } from "../../../words/plan-summary.ts";
import { FieldPlace } from "./field-place.tsx";
import type { PlanFieldsProps } from "./plan-fields.ts";

/** How unpredictable the cues are. */
export function LawField({ settings, onChange, problemAt }: PlanFieldsProps) {
  const say = useSay();
  const wordLaw = useLawHelp(settings);
  return (
    <FieldPlace field="law">
      <Choices
        label={say("plan.law")}
        value={settings.law}
        problem={problemAt("law")}
        choices={lawNames.map((law) => ({
          value: law,
          label: say(`plan.law.${law}`),
          help: wordLaw(law),
        }))}
        onChange={(law) => onChange({ law })}
      />
    </FieldPlace>
  );
}

/** One sentence about each law, with this plan's own numbers where they help. */
function useLawHelp({ meanSeconds, shortestGapSeconds }: PlanSettings) {
  const say = useSay();
  const hasSpan = meanSeconds > shortestGapSeconds;
  return (law: LawName): string =>
    law === "uniform" && hasSpan
      ? say("plan.law.uniform.helpSpan", {
          shortest: wordSeconds(say, shortestGapSeconds),
          longest: wordSeconds(say, 2 * meanSeconds - shortestGapSeconds),
        })
      : say(`plan.law.${law}.help`);
}
