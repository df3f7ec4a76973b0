// The students of the tables, who are those of the page that shows them to a class too.
export {
  normal,
  type SimulatedStudent,
  simulateRecord,
} from "../../../shared/analysis/calibration/simulate-record.ts";
