import { CheckboxGroup, Label } from "react-aria-components";
import { CheckBox } from "../../parts/check-box.tsx";
import { useFormats, useSay } from "../../text/text.tsx";

interface HeldTicksProps {
  /** Moments of the key, in seconds from the start. */
  cues: readonly number[];
  missed: ReadonlySet<number>;
  onChange: (missed: ReadonlySet<number>) => void;
}

/** The moments of a key, all ticked: a cue that did not come is unticked, as on the paper. */
export function HeldTicks({ cues, missed, onChange }: HeldTicksProps) {
  const say = useSay();
  const formats = useFormats();
  const numbers = cues.map((_, index) => index + 1);
  return (
    <CheckboxGroup
      className="field"
      value={numbers.filter((cue) => !missed.has(cue)).map(String)}
      onChange={(came) => onChange(new Set(numbers.filter((cue) => !came.includes(String(cue)))))}
    >
      <Label className="field-label">{say("held.ticks", { cues: cues.length })}</Label>
      <p className="field-help">{say("held.ticksHelp")}</p>
      <div className="held-ticks">
        {cues.map((seconds, index) => (
          <CheckBox key={seconds} value={String(index + 1)}>
            {say("held.tick", { cue: index + 1, time: formats.clock(seconds) })}
          </CheckBox>
        ))}
      </div>
    </CheckboxGroup>
  );
}
