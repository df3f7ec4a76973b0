import type { KeyboardEvent } from "react";
import { Button } from "../../parts/button.tsx";
import { NumberField } from "../../parts/field.tsx";
import { useSay } from "../../text/text.tsx";

/** A card of which only the two sums are entered. */
export function TotalsFields(props: {
  name: string;
  on: number;
  off: number;
  most: number;
  /** Nothing was typed yet and the card holds no mark: it may have been handed in empty. */
  mayBeEmpty: boolean;
  onChange: (on: number, off: number) => void;
  onDone: () => void;
}) {
  const say = useSay();
  const { name, on, off, most, mayBeEmpty, onChange, onDone } = props;
  const whole = (value: number) => (Number.isFinite(value) ? Math.max(0, Math.round(value)) : 0);
  const problem =
    on + off > most ? say("refused.total-too-many", { have: on + off, most }) : undefined;
  return (
    <div
      className="cards-totals"
      role="group"
      aria-label={name}
      onKeyDownCapture={(event) => onEnter(event, onDone)}
    >
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
      {mayBeEmpty ? (
        <Button
          look="quiet"
          onPress={() => onChange(0, 0)}
          aria-label={say("cards.emptyNamed", { name })}
        >
          {say("cards.empty")}
        </Button>
      ) : null}
    </div>
  );
}

/** Enter goes from the first sum to the second and then to the next card; leaving a field takes its number. */
function onEnter(event: KeyboardEvent<HTMLElement>, onDone: () => void) {
  if (event.key !== "Enter" || !(event.target instanceof HTMLInputElement)) return;
  event.preventDefault();
  const fields = [...event.currentTarget.querySelectorAll("input")];
  const next = fields[fields.indexOf(event.target) + 1];
  if (next === undefined) onDone();
  else next.focus();
}
