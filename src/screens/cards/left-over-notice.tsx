import type { CardRow, RefusedCard } from "../../../shared/api/records.ts";
import { Notice } from "../../parts/notice.tsx";
import { useSay } from "../../text/text.tsx";
import type { LeftOver } from "./card-draft.ts";

/** What of a pasted block had no place, by row or student, so that nothing is lost unseen. */
export function LeftOverNotice(props: {
  leftOver: LeftOver;
  rows: readonly CardRow[];
  boxesOnCard: number;
}) {
  const say = useSay();
  const { leftOver, rows, boxesOnCard } = props;
  const nameAt = (index: number) => rows[index]?.student.name ?? "";
  return (
    <Notice kind="caution" title={say("cards.leftOver")}>
      <ul>
        {leftOver.past.map(({ index, cells }) => (
          <li key={`past ${index}`}>
            {say("cards.leftOver.past", { name: nameAt(index), cells, boxes: boxesOnCard })}
          </li>
        ))}
        {leftOver.aside.map((index) => (
          <li key={`aside ${index}`}>{say("cards.leftOver.aside", { name: nameAt(index) })}</li>
        ))}
        {leftOver.rows.map(({ row, cells }) => (
          <li key={`row ${row}`}>{say("cards.leftOver.row", { row, cells })}</li>
        ))}
      </ul>
    </Notice>
  );
}

/** Cards that were not written although all others were: another window may have been quicker. */
export function RefusedNotice(props: {
  refused: readonly RefusedCard[];
  rows: readonly CardRow[];
}) {
  const say = useSay();
  const { refused, rows } = props;
  if (refused.length === 0) return null;
  return (
    <Notice kind="caution" title={say("cards.refused")}>
      <ul>
        {refused.map(({ studentId, code, have, most }) => (
          <li key={studentId}>
            {say("cards.refusedCard", {
              name: rows.find(({ student }) => student.id === studentId)?.student.name ?? "",
              why: say(`refused.${code}`, { have, most }),
            })}
          </li>
        ))}
      </ul>
    </Notice>
  );
}
