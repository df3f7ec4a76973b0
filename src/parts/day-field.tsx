import { useId, useState } from "react";
import "./field.css";

interface DayFieldProps {
  label: string;
  /** `YYYY-MM-DD`. */
  value: string;
  onChange: (day: string) => void;
  help?: string;
}

/** While a year is typed the field has days of the years 2, 20 and 202; no school keeps records of those. */
const wholeDay = /^[1-9]\d{3}-\d{2}-\d{2}$/;

/** A day of the calendar, typed or picked; a half-typed day changes nothing and is gone with the focus. */
export function DayField({ label, value, onChange, help }: DayFieldProps) {
  const id = useId();
  const helpId = useId();
  const [halfTyped, setHalfTyped] = useState<string | null>(null);
  const type = (text: string) => {
    const isWhole = wholeDay.test(text);
    setHalfTyped(isWhole ? null : text);
    if (isWhole) onChange(text);
  };
  return (
    <div className="field">
      <label className="field-label" htmlFor={id}>
        {label}
      </label>
      <input
        id={id}
        type="date"
        className="field-input field-day"
        value={halfTyped ?? value}
        data-empty={value === "" ? "" : undefined}
        aria-describedby={help === undefined ? undefined : helpId}
        onChange={(event) => type(event.target.value)}
        onBlur={() => setHalfTyped(null)}
      />
      {help === undefined ? null : (
        <span id={helpId} className="field-help">
          {help}
        </span>
      )}
    </div>
  );
}
