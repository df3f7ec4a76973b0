import { adviceTable } from "./advice.ts";
import { agreementTable } from "./agreement.ts";
import { classTable } from "./class.ts";
import { designsTable } from "./designs.ts";
import { flagsTable } from "./flags.ts";
import type { Table } from "./outcomes.ts";
import { phasesTable } from "./phases.ts";
import { plannerTable } from "./planner.ts";
import { trendTable } from "./trend.ts";
import { weekTable } from "./week.ts";

/** All tables, by the name that `npm run bench:calibration -- NAME` takes; one file each. */
export const tables: Readonly<Record<string, Table>> = {
  trend: trendTable,
  week: weekTable,
  phases: phasesTable,
  class: classTable,
  flags: flagsTable,
  agreement: agreementTable,
  advice: adviceTable,
  planner: plannerTable,
  designs: designsTable,
};
