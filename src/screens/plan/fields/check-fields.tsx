import { checkPaces, mostStudentsPerCheck } from "../../../../shared/plan/plan.ts";
import { Choices, Pick } from "../../../parts/field.tsx";
import { Section } from "../../../parts/page.tsx";
import { useSay } from "../../../text/text.tsx";
import type { PlanFieldsProps } from "./plan-fields.ts";

const counts = Array.from({ length: mostStudentsPerCheck }, (_, index) => String(index + 1));

/** How many students a spot check asks about, and whether the app or the teacher says how often. */
export function CheckFields({ settings, onChange }: PlanFieldsProps) {
  const say = useSay();
  return (
    <Section title={say("plan.checks")}>
      <Choices
        label={say("plan.studentsPerCheck")}
        help={say("plan.studentsPerCheckHelp")}
        value={String(settings.studentsPerCheck)}
        choices={counts.map((count) => ({ value: count, label: count }))}
        onChange={(count) => onChange({ studentsPerCheck: Number(count) })}
        inRow
      />
      <Pick
        label={say("plan.checkPace")}
        help={say("plan.checkPaceHelp")}
        value={settings.checkPace}
        choices={checkPaces.map((pace) => ({ value: pace, label: say(`plan.checkPace.${pace}`) }))}
        onChange={(checkPace) => onChange({ checkPace })}
      />
    </Section>
  );
}
