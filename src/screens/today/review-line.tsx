import { Link } from "react-router";
import { mayMeasure, selfMatch } from "../../../shared/home/contract-match.ts";
import type { ContractGoal } from "../../../shared/home/contract-terms.ts";
import type { Group, Student } from "../../../shared/roster/roster.ts";
import { useAsk, useStudents } from "../../api/queries.ts";
import { useAgreed } from "../../class/home/use-agreed.ts";
import { useGroupCounts } from "../../reading/use-reading.ts";
import { useFormats, useSay } from "../../text/text.tsx";
import { WaitingItem } from "./waiting-item.tsx";

/** What is to be looked at again by today: pages of what was agreed, and contracts. */
export function ReviewLines({ group, today }: { group: Group; today: string }) {
  const say = useSay();
  const formats = useFormats();
  const students = useStudents(group.id).data ?? [];
  const agreed = useAgreed(group.id) ?? [];
  const pages = agreed.map(({ studentId, reviewOn }) => {
    const student = students.find(({ id }) => id === studentId);
    if (student === undefined || reviewOn === null || reviewOn > today) return null;
    const { name } = student;
    const words = say("agreed.reviewDue", { name, day: formats.day(reviewOn) });
    return (
      <WaitingItem key={studentId} what={`agreed ${studentId} ${reviewOn}`} named={words}>
        {words}{" "}
        <Link
          to={`/groups/${group.id}/students/${studentId}/agreed`}
          aria-label={say("agreed.reviewOpenNamed", { name })}
        >
          {say("agreed.reviewOpen")}
        </Link>
      </WaitingItem>
    );
  });
  return (
    <>
      {pages}
      <ContractLines group={group} students={students} today={today} />
    </>
  );
}

/** Contracts that wait for signatures or for their day, or that self-records measure and should not. */
function ContractLines(props: { group: Group; students: readonly Student[]; today: string }) {
  const say = useSay();
  const formats = useFormats();
  const { group, students, today } = props;
  const contracts = useAsk("home", ["contracts-of-group", group.id], (api) =>
    api.contracts.ofGroup({ groupId: group.id }),
  );
  const counts = useGroupCounts(group.id).data;
  /** How self-records match where they are the measure and match too rarely; else null. */
  const lowMatch = (goal: ContractGoal, studentId: string) => {
    if (counts === undefined) return null;
    const match = selfMatch(counts, studentId);
    return mayMeasure(goal, match) ? null : match;
  };
  return (contracts.data ?? []).flatMap(({ id, studentId, signedOn, reviewOn, terms }) => {
    const student = students.find((each) => each.id === studentId);
    if (student === undefined) return [];
    const { name } = student;
    const due =
      signedOn === null
        ? { what: "signatures", words: say("contract.signWaits", { name }) }
        : reviewOn <= today
          ? {
              what: "review",
              words: say("contract.reviewDue", { name, day: formats.day(reviewOn) }),
            }
          : null;
    const match = signedOn === null ? null : lowMatch(terms.goal, studentId);
    const low = match && {
      what: "match",
      words: say("contract.matchDue", {
        name,
        percent: formats.percent(match.share ?? 0),
        compared: match.compared,
      }),
    };
    return [due, low].map((waits) =>
      waits === null ? null : (
        <WaitingItem
          key={`${id} ${waits.what}`}
          what={`contract ${id} ${waits.what}`}
          named={waits.words}
        >
          {waits.words}{" "}
          <Link
            to={`/groups/${group.id}/students/${studentId}/contract`}
            aria-label={say("contract.openNamed", { name })}
          >
            {say("contract.open")}
          </Link>
        </WaitingItem>
      ),
    );
  });
}
