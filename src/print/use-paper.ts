import { useSettings, useTell } from "../api/queries.ts";
import type { Paper } from "./paper.ts";

/** The paper in the teacher's printer; choosing another one is remembered for every print page. */
export function usePaper(): { paper: Paper | undefined; choose: (paper: Paper) => void } {
  const settings = useSettings();
  const save = useTell((api, paper: Paper) => api.app.saveSettings({ paper }));
  const paper = save.isPending ? save.variables : settings?.paper;
  return { paper, choose: save.mutate };
}
