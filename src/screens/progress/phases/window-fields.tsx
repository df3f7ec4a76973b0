import { windowDays } from "../../../../shared/reading/drawn/drawn-stagger.ts";
import { NumberField } from "../../../parts/field.tsx";
import { DayField } from "../../../parts/moment-field.tsx";

/** The first day that can be drawn, and how many school days each window has. */
export function WindowFields(props: {
  fromLabel: string;
  from: string;
  onFrom: (day: string) => void;
  windowLabel: string;
  window: number;
  onWindow: (days: number) => void;
}) {
  return (
    <>
      <DayField label={props.fromLabel} value={props.from} onChange={props.onFrom} />
      <NumberField
        label={props.windowLabel}
        value={props.window}
        minValue={windowDays.fewest}
        maxValue={windowDays.most}
        step={1}
        onChange={props.onWindow}
      />
    </>
  );
}
