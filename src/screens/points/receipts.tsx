import type { PointsState } from "../../../shared/api/points.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { SteadyButton } from "../../parts/steady/steady-button.tsx";
import { useSay } from "../../text/text.tsx";
import type { Buying } from "./use-buy.ts";

/** Today's exchanges, newest first, each to be taken back for ten minutes. */
export function Receipts({
  students,
  points,
  buying,
}: {
  students: readonly Student[];
  points: PointsState;
  buying: Buying;
}) {
  const say = useSay();
  return (
    <div className="points-receipts">
      <h3>{say("points.receipts")}</h3>
      {points.receipts.length === 0 ? <p>{say("points.noReceipts")}</p> : null}
      <ul aria-live="polite">
        {points.receipts.map(({ studentId, privilegeId, press, price, undone, canUndo }) => {
          const name = students.find(({ id }) => id === studentId)?.name ?? say("points.gone");
          const privilege =
            points.privileges.find(({ id }) => id === privilegeId)?.name ?? say("points.gone");
          const values = { name, privilege, points: price };
          return (
            <li key={press} className={undone ? "is-undone" : ""}>
              <span>{say(undone ? "points.receiptUndone" : "points.receipt", values)}</span>
              {canUndo ? (
                <SteadyButton
                  look="quiet"
                  // Each further exchange, also one of another window, moves the lines.
                  shown={points.receipts.length}
                  isDisabled={buying.isUndoing}
                  aria-label={say("points.undoNamed", values)}
                  onPress={() => buying.undo({ studentId, press })}
                >
                  {say("act.undo")}
                </SteadyButton>
              ) : null}
            </li>
          );
        })}
      </ul>
    </div>
  );
}
