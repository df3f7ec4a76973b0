import { useId, useState } from "react";
import "./field.css";

interface MomentFieldProps {
  label: string;
  /** A day as `YYYY-MM-DD`, a time of the day as `HH:MM`; or empty. */
  value: string;
  onChange: (moment: string) => void;
  help?: string;
}

/** While a year is typed the field has days of the years 2, 20 and 202; no school keeps records of those. */
const wholeDay = /^[1-9]\d{3}-\d{2}-\d{2}$/;

/** A day of the calendar, typed or picked; a half-typed day changes nothing and is gone with the focus. */
export function DayField({ onChange, ...props }: MomentFieldProps) {
  const [halfTyped, setHalfTyped] = useState<string | null>(null);
  const type = (text: string) => {
    const isWhole = wholeDay.test(text);
    setHalfTyped(isWhole ? null : text);
    if (isWhole) onChange(text);
  };
  return (
    <MomentField
      {...props}
      type="date"
      value={halfTyped ?? props.value}
      isEmpty={props.value === ""}
      onChange={type}
      onLeave={() => setHalfTyped(null)}
    />
  );
}

/** A time of the day, typed or picked; a half-typed time is none. */
export function TimeField(props: MomentFieldProps) {
  return <MomentField {...props} type="time" isEmpty={false} />;
}

interface InputProps extends MomentFieldProps {
  type: "date" | "time";
  /** Drawn as a field without a value. */
  isEmpty: boolean;
  onLeave?: () => void;
}

function MomentField({ type, label, value, isEmpty, onChange, onLeave, help }: InputProps) {
  const id = useId();
  const helpId = useId();
  return (
    <div className="field">
      <label className="field-label" htmlFor={id}>
        {label}
      </label>
      <input
        id={id}
        type={type}
        className="field-input field-day"
        value={value}
        data-empty={isEmpty ? "" : undefined}
        aria-describedby={help === undefined ? undefined : helpId}
        onChange={(event) => onChange(event.target.value)}
        onBlur={onLeave}
      />
      {help === undefined ? null : (
        <span id={helpId} className="field-help">
          {help}
        </span>
      )}
    </div>
  );
}
