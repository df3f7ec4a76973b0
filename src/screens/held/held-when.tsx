import type { Plan } from "../../../shared/api/plans.ts";
import { Pick, TextField } from "../../parts/field.tsx";
import { DayField, TimeField } from "../../parts/moment-field.tsx";
import { Section } from "../../parts/page.tsx";
import { useSay } from "../../text/text.tsx";

/** When a session was held elsewhere, and who led it. */
export interface When {
  /** `YYYY-MM-DD`. */
  readonly day: string;
  /** `HH:MM`, or empty. */
  readonly time: string;
  readonly who: string;
}

interface HeldWhenProps {
  plans: readonly Plan[];
  planId: string;
  onPlan: (planId: string) => void;
  when: When;
  onChange: (when: When) => void;
}

/** By which plan, on what day and at what time, and who led. */
export function HeldWhen({ plans, planId, onPlan, when, onChange }: HeldWhenProps) {
  const say = useSay();
  return (
    <Section title={say("held.when")}>
      <div className="held-row">
        <Pick
          label={say("today.plan")}
          value={planId}
          onChange={onPlan}
          choices={plans.map(({ id, name }) => ({ value: id, label: name }))}
        />
        <DayField
          label={say("held.day")}
          value={when.day}
          onChange={(day) => onChange({ ...when, day })}
        />
        <TimeField
          label={say("held.time")}
          value={when.time}
          onChange={(time) => onChange({ ...when, time })}
        />
      </div>
      <TextField
        label={say("held.who")}
        help={say("held.whoHelp")}
        value={when.who}
        onChange={(who) => onChange({ ...when, who })}
        maxLength={100}
      />
    </Section>
  );
}
