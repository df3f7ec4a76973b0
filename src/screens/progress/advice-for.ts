import { type Advice, advise } from "../../../shared/analysis/advice.ts";
import { lastPlace } from "../../../shared/analysis/ladder.ts";
import type { AdviceMaterial } from "./advice-material.ts";
import type { ProgramPlace } from "./use-program.ts";

/**
 * The advice for a student or group at its place in the program. Only sessions since it came to this
 * place count; a place past the end of a ladder that was made shorter counts as its last.
 */
export function adviceFor(material: AdviceMaterial, program: ProgramPlace): Advice {
  const ladder = { cueSteps: program.stepMeansSeconds.length };
  return advise({
    ladder,
    place: Math.min(program.place, lastPlace(ladder)),
    goal: program.goal,
    sessions: material.sessions.filter(({ day }) => day >= program.placeSince),
    agreement: material.recentAgreement,
    sessionsSinceCheck: material.sessionsSinceCheck,
    pointsPaid: program.pointsPaid,
    baseline: material.baseline,
  });
}
