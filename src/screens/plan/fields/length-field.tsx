import { useState } from "react";
import { Choices } from "../../../parts/field.tsx";
import { useSay } from "../../../text/text.tsx";
import { wordSeconds } from "../../../words/plan-summary.ts";
import { EntryField } from "./entry-field.tsx";
import { namesItsUnit, readLength, writeLength } from "./read-length.ts";
import { useTyped } from "./use-typed.ts";

interface LengthFieldProps {
  /** The question. */
  label: string;
  /** What is asked about, as the field for another value is called. */
  ownLabel: string;
  help?: string;
  /** Why the plan cannot be run with this length. */
  problem?: string | undefined;
  /** The plain choices, in seconds. */
  offered: readonly number[];
  /** NaN while the text is no length. */
  seconds: number;
  onChange: (seconds: number) => void;
}

/** A length of time by a plain choice or by free entry in seconds or minutes. */
export function LengthField(props: LengthFieldProps) {
  const { label, ownLabel, help, problem, offered, seconds, onChange } = props;
  const say = useSay();
  const [isOwn, setIsOwn] = useState(!offered.includes(seconds));
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
        problem={showsOwn ? undefined : problem}
        inRow
        value={showsOwn ? "own" : String(seconds)}
        choices={choices}
        onChange={(value) => {
          setIsOwn(value === "own");
          if (value !== "own") onChange(Number(value));
        }}
      />
      {showsOwn ? (
        <OwnLength label={ownLabel} problem={problem} seconds={seconds} onChange={onChange} />
      ) : null}
    </div>
  );
}

/** The unit says how a bare number is meant; changing it leaves the number as it was typed. */
function OwnLength(props: Pick<LengthFieldProps, "label" | "problem" | "seconds" | "onChange">) {
  const { label, problem, seconds, onChange } = props;
  const say = useSay();
  const [unit, setUnit] = useState<"seconds" | "minutes">(
    seconds % 30 === 0 && seconds >= 60 ? "minutes" : "seconds",
  );
  const typed = useTyped(seconds, (value) => writeLength(value, unit));
  const mean = (text: string, inUnit: "seconds" | "minutes") => {
    const value = readLength(text, inUnit);
    typed.keep(text, value);
    onChange(value);
  };
  const isSpelled = namesItsUnit(typed.text) && Number.isFinite(seconds);
  return (
    <div className="plan-own">
      <EntryField
        label={say("plan.ownLength", { what: label })}
        help={isSpelled ? say("plan.thatIs", { length: wordSeconds(say, seconds) }) : undefined}
        text={typed.text}
        problem={Number.isNaN(seconds) ? say("plan.noLength") : problem}
        onType={(text) => mean(text, unit)}
      />
      <Choices
        label={say("plan.unit")}
        inRow
        value={unit}
        choices={[
          { value: "seconds", label: say("plan.unitSeconds") },
          { value: "minutes", label: say("plan.unitMinutes") },
        ]}
        onChange={(next) => {
          setUnit(next);
          mean(typed.text, next);
        }}
      />
    </div>
  );
}
