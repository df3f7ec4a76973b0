import { useId } from "react";
import "../../parts/field.css";

interface TimeFieldProps {
  label: string;
  /** `HH:MM`, or empty. */
  value: string;
  onChange: (time: string) => void;
}

/** A time of the day, typed or picked; a half-typed time is none. */
export function TimeField({ label, value, onChange }: TimeFieldProps) {
  const id = useId();
  return (
    <div className="field">
      <label className="field-label" htmlFor={id}>
        {label}
      </label>
      <input
        id={id}
        type="time"
        className="field-input field-day"
        value={value}
        onChange={(event) => onChange(event.target.value)}
      />
    </div>
  );
}
