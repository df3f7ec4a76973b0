import { mayMeasure, selfMatch } from "../../../shared/home/contract-match.ts";
import { type ContractGoal, isSelfRecorded } from "../../../shared/home/contract-terms.ts";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";
import { Notice } from "../../parts/notice.tsx";
import { useFormats, useSay } from "../../text/text.tsx";

/** A goal and the record that it is held against. */
export interface OnRecord {
  goal: ContractGoal;
  counts: GroupCounts;
  studentId: string;
}

/** Whether self-records can be the measure at all; nothing where they are not, or are well matched. */
export function MatchNote({ goal, counts, studentId }: OnRecord) {
  const say = useSay();
  const formats = useFormats();
  if (!isSelfRecorded(goal)) return null;
  const { share, compared } = selfMatch(counts, studentId);
  if (share === null) return <p className="home-help">{say("contract.matchUnknown")}</p>;
  if (mayMeasure(goal, { share, compared })) return null;
  return (
    <Notice kind="caution">
      {say("contract.matchLow", { percent: formats.percent(share), compared })}
    </Notice>
  );
}
