import { chimeNames, type PlanChime } from "../../../shared/plan/plan.ts";
import { Choices } from "../../parts/field.tsx";
import { useSay } from "../../text/text.tsx";
import { useOwnChimes } from "./use-own-chimes.ts";

interface ChimeChoiceProps {
  label: string;
  value: PlanChime;
  onChange: (chime: PlanChime) => void;
}

/** One of the chimes that ship, or of the teacher's own. */
export function ChimeChoice({ label, value, onChange }: ChimeChoiceProps) {
  const say = useSay();
  const own = useOwnChimes() ?? [];
  const choices: { value: PlanChime; label: string }[] = [
    ...chimeNames.map((chime) => ({ value: chime, label: say(`chime.${chime}`) })),
    ...own.map(({ id, name }) => ({ value: `own:${id}` as const, label: name })),
  ];
  return <Choices label={label} inRow value={value} choices={choices} onChange={onChange} />;
}
