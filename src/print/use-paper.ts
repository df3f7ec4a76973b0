import { regionPaper } from "../../shared/api/region-paper.ts";
import { useSaveSettings, useSettings } from "../api/queries.ts";
import type { Paper } from "./paper.ts";

/** The paper in the teacher's printer, the region's until one is chosen; choosing another one is remembered for every print page. */
export function usePaper(): { paper: Paper | undefined; choose: (paper: Paper) => void } {
  const settings = useSettings();
  const save = useSaveSettings();
  const chosen = save.isPending ? save.variables.paper : settings?.paper;
  const paper = chosen === "region" ? regionPaper(navigator.language) : chosen;
  return { paper, choose: (paper) => save.mutate({ paper }) };
}
