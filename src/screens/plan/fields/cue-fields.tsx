import {
  type LawName,
  lawNames,
  type PlanSettings,
  recordingWays,
} from "../../../../shared/plan/plan.ts";
import { Choices } from "../../../parts/field.tsx";
import { Section } from "../../../parts/page.tsx";
import { useSay } from "../../../text/text.tsx";
import { wordSeconds } from "../../../words/plan-summary.ts";
import { LengthField } from "./length-field.tsx";

export interface PlanFieldsProps {
  settings: PlanSettings;
  onChange: (part: Partial<PlanSettings>) => void;
}

/** How long, how often, how unpredictable, and how students record. */
export function CueFields({ settings, onChange }: PlanFieldsProps) {
  const say = useSay();
  const wordLaw = useLawHelp(settings);
  return (
    <Section title={say("plan.cues")}>
      <LengthField
        label={say("plan.mean")}
        help={say("plan.meanHelp")}
        offered={[60, 120, 180, 300, 600]}
        seconds={settings.meanSeconds}
        onChange={(meanSeconds) => onChange({ meanSeconds })}
      />
      <LengthField
        label={say("plan.length")}
        offered={[600, 900, 1200, 1800, 2700]}
        seconds={settings.lengthSeconds}
        onChange={(lengthSeconds) => onChange({ lengthSeconds })}
      />
      <Choices
        label={say("plan.recording")}
        value={settings.recording}
        choices={recordingWays.map((way) => ({
          value: way,
          label: say(`plan.recording.${way}`),
          help: say(`plan.recording.${way}.help`),
        }))}
        onChange={(recording) => onChange({ recording })}
      />
      <Choices
        label={say("plan.law")}
        value={settings.law}
        choices={lawNames.map((law) => ({
          value: law,
          label: say(`plan.law.${law}`),
          help: wordLaw(law),
        }))}
        onChange={(law) => onChange({ law })}
      />
    </Section>
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
