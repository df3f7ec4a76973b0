import type { PlanSettings } from "../../../../shared/plan/plan.ts";
import type { PlanField } from "./problem-places.ts";

/** What every part of the plan's form gets. */
export interface PlanFieldsProps {
  settings: PlanSettings;
  onChange: (part: Partial<PlanSettings>) => void;
  /** Why the plan cannot be run, if that is to be said at this setting. */
  problemAt: (field: PlanField) => string | undefined;
}
