import type { AdviceInputs } from "../../../shared/analysis/advice.ts";
import { lastPlace } from "../../../shared/analysis/ladder.ts";
import type { Program } from "../../../shared/api/program.ts";
import type { AdviceMaterial } from "./advice-material.ts";

/**
 * What the advice for a student or group is drawn from. Only sessions since the program came to its
 * place count; a place past the end of a ladder that was made shorter counts as its last.
 */
export function adviceInputs(material: AdviceMaterial, program: Program): AdviceInputs {
  const ladder = { cueSteps: program.stepMeansSeconds.length };
  return {
    ladder,
    place: Math.min(program.place, lastPlace(ladder)),
    goal: program.goal,
    sessions: material.sessions.filter(({ day }) => day >= program.placeSince),
    agreement: material.recentAgreement,
    sessionsSinceCheck: material.sessionsSinceCheck,
    pointsPaid: program.pointsPaid,
    baseline: material.baseline,
  };
}
