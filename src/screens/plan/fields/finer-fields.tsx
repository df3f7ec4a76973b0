import type { ReactNode } from "react";
import { Switch } from "../../../parts/field.tsx";
import { useSay } from "../../../text/text.tsx";
import type { PlanFieldsProps } from "./cue-fields.tsx";
import { EntryField } from "./entry-field.tsx";
import { readCount } from "./read-length.ts";
import { SecondsField } from "./seconds-field.tsx";
import { useTyped } from "./use-typed.ts";

/** What most teachers never need to touch. `floorNote` says what the fewest-cues floor costs. */
export function FinerFields(props: PlanFieldsProps & { floorNote: ReactNode }) {
  const { settings, onChange, floorNote } = props;
  const say = useSay();
  const usualLongest = Math.max(settings.meanSeconds * 3, settings.shortestGapSeconds + 1);
  return (
    <div className="plan-finer">
      <SecondsField
        label={say("plan.shortestGap")}
        help={say("plan.shortestGapHelp")}
        seconds={settings.shortestGapSeconds}
        onChange={(shortestGapSeconds) => onChange({ shortestGapSeconds })}
      />
      <div>
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
            onChange={(longestGapSeconds) => onChange({ longestGapSeconds })}
          />
        )}
      </div>
      <SecondsField
        label={say("plan.leadIn")}
        help={say("plan.leadInHelp")}
        seconds={settings.leadInSeconds}
        onChange={(leadInSeconds) => onChange({ leadInSeconds })}
      />
      <SecondsField
        label={say("plan.endMargin")}
        help={say("plan.endMarginHelp")}
        seconds={settings.endMarginSeconds}
        onChange={(endMarginSeconds) => onChange({ endMarginSeconds })}
      />
      <div className="plan-floor">
        <FloorField
          count={settings.fewestCues}
          onChange={(fewestCues) => onChange({ fewestCues, fewestCuesUnthinned: null })}
        />
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

function FloorField({ count, onChange }: { count: number; onChange: (count: number) => void }) {
  const say = useSay();
  const typed = useTyped(count, (value) => (Number.isFinite(value) ? String(value) : ""));
  return (
    <EntryField
      label={say("plan.fewestCues")}
      help={say("plan.fewestCuesHelp")}
      text={typed.text}
      problem={Number.isNaN(count) ? say("plan.noCount") : undefined}
      onType={(text) => {
        const value = readCount(text);
        typed.keep(text, value);
        onChange(value);
      }}
    />
  );
}
