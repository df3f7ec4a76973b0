import { useId } from "react";
import "./field.css";

interface DayFieldProps {
  label: string;
  /** `YYYY-MM-DD`. */
  value: string;
  onChange: (day: string) => void;
  help?: string;
}

/** A day of the calendar, typed or picked; a half-typed day changes nothing. */
export function DayField({ label, value, onChange, help }: DayFieldProps) {
  const id = useId();
  const helpId = useId();
  return (
    <div className="field">
      <label className="field-label" htmlFor={id}>
        {label}
      </label>
      <input
        id={id}
        type="date"
        className="field-input field-day"
        value={value}
        data-empty={value === "" ? "" : undefined}
        aria-describedby={help === undefined ? undefined : helpId}
        onChange={(event) => {
          if (/^\d{4}-\d{2}-\d{2}$/.test(event.target.value)) onChange(event.target.value);
        }}
      />
      {help === undefined ? null : (
        <span id={helpId} className="field-help">
          {help}
        </span>
      )}
    </div>
  );
}
