import { NumberField } from "../../parts/field.tsx";
import { useSay } from "../../text/text.tsx";

/** A card of which only the two sums are entered. */
export function TotalsFields(props: {
  name: string;
  on: number;
  off: number;
  most: number;
  onChange: (on: number, off: number) => void;
}) {
  const say = useSay();
  const { name, on, off, most, onChange } = props;
  const whole = (value: number) => (Number.isFinite(value) ? Math.max(0, Math.round(value)) : 0);
  const problem =
    on + off > most ? say("refused.total-too-many", { have: on + off, most }) : undefined;
  return (
    <div className="cards-totals" role="group" aria-label={name}>
      <NumberField
        label={say("end.on")}
        value={on}
        minValue={0}
        maxValue={most}
        step={1}
        problem={problem}
        onChange={(value) => onChange(whole(value), off)}
      />
      <NumberField
        label={say("end.off")}
        value={off}
        minValue={0}
        maxValue={most}
        step={1}
        onChange={(value) => onChange(on, whole(value))}
      />
    </div>
  );
}
