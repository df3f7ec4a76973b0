import type { PointsState } from "../../../shared/api/points.ts";
import { wordProblem } from "../../parts/problem.tsx";
import { SteadyButton } from "../../parts/steady/steady-button.tsx";
import { useSay } from "../../text/text.tsx";
import type { Buying } from "./use-buy.ts";

/**
 * What the last press did, or why it did nothing, in one line that stays in sight while the students are gone
 * through; with the way to take it back.
 */
export function LastExchange({ buying, points }: { buying: Buying; points: PointsState }) {
  const say = useSay();
  const { last, error } = buying;
  const receipt = points.receipts.find(({ press }) => press === last?.press);
  const values = last === null ? null : wordsOf(last);
  return (
    <div className="points-newest">
      <p role="status" className={error === null ? "" : "points-refused"}>
        {error !== null ? (
          <>
            <strong>{say("error.title")}.</strong> {wordProblem(say, error)}
          </>
        ) : values === null ? (
          say("points.nothingYet")
        ) : (
          say(receipt?.undone === true ? "points.receiptUndone" : "points.receipt", values)
        )}
      </p>
      {error === null && values !== null && receipt?.canUndo === true ? (
        <SteadyButton
          look="quiet"
          shown={receipt.press}
          isDisabled={buying.isUndoing}
          aria-label={say("points.undoNamed", values)}
          onPress={() => buying.undo(receipt)}
        >
          {say("act.undo")}
        </SteadyButton>
      ) : null}
    </div>
  );
}

function wordsOf({ student, privilege }: NonNullable<Buying["last"]>) {
  return { name: student.name, privilege: privilege.name, points: privilege.price };
}
