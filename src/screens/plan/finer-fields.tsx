import { NumberField, Switch } from "../../parts/field.tsx";
import { useSay } from "../../text/text.tsx";
import type { PlanFieldsProps } from "./cue-fields.tsx";

/** What most teachers never need to touch. */
export function FinerFields({ settings, onChange }: PlanFieldsProps) {
  const say = useSay();
  const ifNumber = (change: (value: number) => void) => (value: number) => {
    if (Number.isFinite(value)) change(value);
  };
  const usualLongest = Math.max(settings.meanSeconds * 3, settings.shortestGapSeconds + 1);
  return (
    <div className="plan-finer">
      <NumberField
        label={say("plan.shortestGap")}
        help={say("plan.shortestGapHelp")}
        unit={say("plan.unitSeconds")}
        value={settings.shortestGapSeconds}
        minValue={0}
        onChange={ifNumber((shortestGapSeconds) => onChange({ shortestGapSeconds }))}
      />
      <div>
        <Switch
          label={say("plan.hasLongestGap")}
          value={settings.longestGapSeconds !== null}
          onChange={(has) => onChange({ longestGapSeconds: has ? usualLongest : null })}
        />
        {settings.longestGapSeconds === null ? null : (
          <NumberField
            label={say("plan.longestGap")}
            help={say("plan.longestGapHelp")}
            unit={say("plan.unitSeconds")}
            value={settings.longestGapSeconds}
            minValue={0}
            onChange={ifNumber((longestGapSeconds) => onChange({ longestGapSeconds }))}
          />
        )}
      </div>
      <NumberField
        label={say("plan.leadIn")}
        help={say("plan.leadInHelp")}
        unit={say("plan.unitSeconds")}
        value={settings.leadInSeconds}
        minValue={0}
        onChange={ifNumber((leadInSeconds) => onChange({ leadInSeconds }))}
      />
      <NumberField
        label={say("plan.endMargin")}
        help={say("plan.endMarginHelp")}
        unit={say("plan.unitSeconds")}
        value={settings.endMarginSeconds}
        minValue={0}
        onChange={ifNumber((endMarginSeconds) => onChange({ endMarginSeconds }))}
      />
      <NumberField
        label={say("plan.fewestCues")}
        help={say("plan.fewestCuesHelp")}
        value={settings.fewestCues}
        minValue={0}
        maxValue={500}
        step={1}
        onChange={ifNumber((fewestCues) => onChange({ fewestCues }))}
      />
      <Switch
        label={say("plan.hideNextCue")}
        value={settings.hideNextCue}
        onChange={(hideNextCue) => onChange({ hideNextCue })}
      />
    </div>
  );
}
