import { Link } from "react-router";
import type { Plan } from "../../../../shared/api/plans.ts";
import { useOpenSession } from "../../../api/queries.ts";
import { useStartSession } from "../../../live/start-session.ts";
import { useCheckedStart } from "../../../live/use-checked-start.tsx";
import { Button } from "../../../parts/button.tsx";
import { Problem } from "../../../parts/problem.tsx";
import { useSay } from "../../../text/text.tsx";

/** Holds a session whose cues are those of a given seed. */
export function StartWithSeed(props: { plan: Plan; seed: string; isSaved: boolean }) {
  const { plan, seed, isSaved } = props;
  const say = useSay();
  const open = useOpenSession();
  const session = useStartSession();
  const { press, check } = useCheckedStart(
    plan,
    (around) => session.start({ plan, kind: "seatwork", seed, ...around }),
    "seatwork",
    seed,
  );
  return (
    <>
      <div className="plan-seed-row">
        <Button isDisabled={seed === "" || !isSaved || !session.mayStart} onPress={press}>
          {say("seed.start")}
        </Button>
      </div>
      {open === null ? null : (
        <p className="plan-caution">
          {say("seed.otherRuns")} <Link to={`/session/${open.id}`}>{say("today.goToSession")}</Link>
        </p>
      )}
      {isSaved ? null : <p className="plan-caution">{say("seed.saveFirst")}</p>}
      <Problem error={session.error} />
      {check}
    </>
  );
}
