import type { ReactNode } from "react";
import { Switch } from "../../../parts/field.tsx";
import { useSay } from "../../../text/text.tsx";
import { EntryField } from "./entry-field.tsx";
import { FieldPlace } from "./field-place.tsx";
import type { PlanFieldsProps } from "./plan-fields.ts";
import { readCount } from "./read-length.ts";
import { SecondsField } from "./seconds-field.tsx";
import { useTyped } from "./use-typed.ts";

/** What most teachers never need to touch. `floorNote` says what the fewest-cues floor costs. */
export function FinerFields(props: PlanFieldsProps & { floorNote: ReactNode }) {
  const { settings, onChange, problemAt, floorNote } = props;
  const say = useSay();
  const usualLongest = Math.max(settings.meanSeconds * 3, settings.shortestGapSeconds + 1);
  return (
    <div className="plan-finer">
      <FieldPlace field="shortestGapSeconds">
        <SecondsField
          label={say("plan.shortestGap")}
          help={say("plan.shortestGapHelp")}
          seconds={settings.shortestGapSeconds}
          problem={problemAt("shortestGapSeconds")}
          onChange={(shortestGapSeconds) => onChange({ shortestGapSeconds })}
        />
      </FieldPlace>
      <FieldPlace field="longestGapSeconds">
        <Switch
          label={say("plan.hasLongestGap")}
          value={settings.longestGapSeconds !== null}
          onChange={(has) => onChange({ longestGapSeconds: has ? usualLongest : null })}
        />
        {settings.longestGapSeconds === null ? null : (
          <SecondsField
            label={say("plan.longestGap")}
            help={say("plan.longestGapHelp")}
            seconds={settings.longestGapSeconds}
            problem={problemAt("longestGapSeconds")}
            onChange={(longestGapSeconds) => onChange({ longestGapSeconds })}
          />
        )}
      </FieldPlace>
      <FieldPlace field="leadInSeconds">
        <SecondsField
          label={say("plan.leadIn")}
          help={say("plan.leadInHelp")}
          seconds={settings.leadInSeconds}
          problem={problemAt("leadInSeconds")}
          onChange={(leadInSeconds) => onChange({ leadInSeconds })}
        />
      </FieldPlace>
      <FieldPlace field="endMarginSeconds">
        <SecondsField
          label={say("plan.endMargin")}
          help={say("plan.endMarginHelp")}
          seconds={settings.endMarginSeconds}
          problem={problemAt("endMarginSeconds")}
          onChange={(endMarginSeconds) => onChange({ endMarginSeconds })}
        />
      </FieldPlace>
      <div className="plan-floor">
        <FieldPlace field="fewestCues">
          <FloorField
            count={settings.fewestCues}
            problem={problemAt("fewestCues")}
            onChange={(fewestCues) => onChange({ fewestCues, fewestCuesUnthinned: null })}
          />
        </FieldPlace>
        {floorNote}
      </div>
      <Switch
        label={say("plan.hideNextCue")}
        value={settings.hideNextCue}
        onChange={(hideNextCue) => onChange({ hideNextCue })}
      />
    </div>
  );
}

function FloorField(props: {
  count: number;
  problem: string | undefined;
  onChange: (count: number) => void;
}) {
  const { count, problem, onChange } = props;
  const say = useSay();
  const typed = useTyped(count, (value) => (Number.isFinite(value) ? String(value) : ""));
  return (
    <EntryField
      label={say("plan.fewestCues")}
      help={say("plan.fewestCuesHelp")}
      text={typed.text}
      problem={Number.isNaN(count) ? say("plan.noCount") : problem}
      onType={(text) => {
        const value = readCount(text);
        typed.keep(text, value);
        onChange(value);
      }}
    />
  );
}
