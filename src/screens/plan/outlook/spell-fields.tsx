import type { Bouts } from "../../../../shared/schedule/precision.ts";
import { Choices } from "../../../parts/field.tsx";
import { useSay } from "../../../text/text.tsx";
import { wordSeconds } from "../../../words/plan-summary.ts";
import { SecondsField } from "../fields/seconds-field.tsx";
import { type SpellName, spellNames, spells } from "./spells.ts";

interface SpellFieldsProps {
  chosen: SpellName | "own";
  bouts: Bouts;
  onChange: (chosen: SpellName | "own", bouts: Bouts) => void;
}

/** How long a student keeps at work, and away from it, at a time: in plain words, or in own numbers. */
export function SpellFields({ chosen, bouts, onChange }: SpellFieldsProps) {
  const say = useSay();
  const choices = [
    ...spellNames.map((value) => ({ value, label: say(`precision.${value}`) })),
    { value: "own" as const, label: say("plan.own") },
  ];
  return (
    <>
      <Choices
        label={say("precision.spells")}
        help={say("precision.spellsHelp", {
          on: wordSeconds(say, bouts.onSeconds),
          off: wordSeconds(say, bouts.offSeconds),
        })}
        inRow
        value={chosen}
        choices={choices}
        onChange={(next) => onChange(next, next === "own" ? bouts : spells[next])}
      />
      {chosen === "own" ? (
        <div className="plan-own">
          <SecondsField
            label={say("precision.on")}
            seconds={bouts.onSeconds}
            onChange={(onSeconds) => onChange("own", { ...bouts, onSeconds })}
          />
          <SecondsField
            label={say("precision.off")}
            seconds={bouts.offSeconds}
            onChange={(offSeconds) => onChange("own", { ...bouts, offSeconds })}
          />
        </div>
      ) : null}
    </>
  );
}
