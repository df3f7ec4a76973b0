import { useSay } from "../../../text/text.tsx";
import { wordSeconds } from "../../../words/plan-summary.ts";
import { EntryField } from "./entry-field.tsx";
import { namesItsUnit, readLength, writeLength } from "./read-length.ts";
import { useTyped } from "./use-typed.ts";

interface SecondsFieldProps {
  label: string;
  help?: string;
  /** Why the plan cannot be run with this length. */
  problem?: string | undefined;
  /** NaN while the text is no length. */
  seconds: number;
  onChange: (seconds: number) => void;
}

/** A short length of time; seconds unless another unit is typed. */
export function SecondsField(props: SecondsFieldProps) {
  const { label, help, problem, seconds, onChange } = props;
  const say = useSay();
  const typed = useTyped(seconds, (value) => writeLength(value, "seconds"));
  const meant =
    namesItsUnit(typed.text) && Number.isFinite(seconds)
      ? say("plan.thatIs", { length: wordSeconds(say, seconds) })
      : help;
  return (
    <EntryField
      label={label}
      help={meant}
      unit={say("plan.unitSeconds")}
      text={typed.text}
      problem={Number.isNaN(seconds) ? say("plan.noLength") : problem}
      onType={(text) => {
        const value = readLength(text, "seconds");
        typed.keep(text, value);
        onChange(value);
      }}
    />
  );
}
