import type { PointsState } from "../../../shared/api/points.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

/** Today's exchanges, newest first, each to be taken back for ten minutes. */
export function Receipts({
  students,
  points,
}: {
  students: readonly Student[];
  points: PointsState;
}) {
  const say = useSay();
  const undo = useTell((api, input: { studentId: string; press: string }) =>
    api.points.undoBuy(input),
  );
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
                <Button
                  look="quiet"
                  isDisabled={undo.isPending}
                  aria-label={say("points.undoNamed", values)}
                  onPress={() => undo.mutate({ studentId, press })}
                >
                  {say("act.undo")}
                </Button>
              ) : null}
            </li>
          );
        })}
      </ul>
      <Problem error={undo.error} />
    </div>
  );
}
