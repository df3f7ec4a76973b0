import { useState } from "react";
import type { PlanSettings } from "../../../shared/plan/plan.ts";
import { useGuess } from "../../compute/use-computed.ts";
import { More } from "../../parts/more.tsx";
import { useSay } from "../../text/text.tsx";
import { GuessFigure } from "./outlook/guess-figure.tsx";
import { PrecisionNote } from "./outlook/precision-note.tsx";
import { TrustNote } from "./outlook/trust-note.tsx";

interface PlanLinksProps {
  plan: PlanSettings | null;
  isLater: boolean;
  groupId: string;
}

/** What follows from the plan for those who ask: what could be guessed, and what sessions can tell. */
export function PlanLinks({ plan, isLater, groupId }: PlanLinksProps) {
  const say = useSay();
  const [isGuessOpen, openGuess] = useState(false);
  const [isPrecisionOpen, openPrecision] = useState(false);
  // Nothing is computed for what nobody looks at.
  const guess = useGuess(isGuessOpen ? plan : null);
  return (
    <div className="plan-links">
      <More label={say("guess.ask")} onOpenChange={openGuess}>
        {isLater ? <p className="plan-caution">{say("plan.asideLater")}</p> : null}
        {guess === null ? null : (
          <div hidden={isLater}>
            <GuessFigure guess={guess} />
          </div>
        )}
      </More>
      <More label={say("precision.ask")} onOpenChange={openPrecision}>
        {isLater ? <p className="plan-caution">{say("plan.asideLater")}</p> : null}
        {plan === null || !isPrecisionOpen ? null : (
          <div className="plan-link-content" hidden={isLater}>
            <TrustNote plan={plan} />
            <PrecisionNote plan={plan} groupId={groupId} />
          </div>
        )}
      </More>
    </div>
  );
}
