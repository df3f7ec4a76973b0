import { useState } from "react";
import { Choices, NumberField } from "../../parts/field.tsx";
import { useSay } from "../../text/text.tsx";
import { wordSeconds } from "../today/plan-summary.ts";

interface LengthFieldProps {
  label: string;
  help?: string;
  /** The plain choices, in seconds. */
  offered: readonly number[];
  seconds: number;
  onChange: (seconds: number) => void;
}

/** A length of time by a plain choice or by free entry in seconds or minutes. */
export function LengthField({ label, help, offered, seconds, onChange }: LengthFieldProps) {
  const say = useSay();
  const [isOwn, setIsOwn] = useState(!offered.includes(seconds));
  const [unit, setUnit] = useState<"seconds" | "minutes">(
    seconds % 30 === 0 && seconds >= 60 ? "minutes" : "seconds",
  );
  const factor = unit === "minutes" ? 60 : 1;
  const showsOwn = isOwn || !offered.includes(seconds);
  const choices = [
    ...offered.map((value) => ({ value: String(value), label: wordSeconds(say, value) })),
    { value: "own", label: say("plan.own") },
  ];
  return (
    <div className="plan-length">
      <Choices
        label={label}
        help={help}
        inRow
        value={showsOwn ? "own" : String(seconds)}
        choices={choices}
        onChange={(value) => {
          setIsOwn(value === "own");
          if (value !== "own") onChange(Number(value));
        }}
      />
      {showsOwn ? (
        <div className="plan-own">
          <NumberField
            label={say("plan.ownLength", { what: label })}
            value={seconds / factor}
            minValue={0}
            maxValue={86_400 / factor}
            onChange={(value) => {
              if (Number.isFinite(value)) onChange(value * factor);
            }}
          />
          <Choices
            label={say("plan.unit")}
            inRow
            value={unit}
            choices={[
              { value: "seconds", label: say("plan.unitSeconds") },
              { value: "minutes", label: say("plan.unitMinutes") },
            ]}
            onChange={setUnit}
          />
        </div>
      ) : null}
    </div>
  );
}
