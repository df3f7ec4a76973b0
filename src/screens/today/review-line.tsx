import { Link } from "react-router";
import type { Group, Student } from "../../../shared/roster/roster.ts";
import { useAsk, useStudents } from "../../api/queries.ts";
import { useAgreed } from "../../home/use-agreed.ts";
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

/** Contracts that wait for signatures, or for their day. */
function ContractLines(props: { group: Group; students: readonly Student[]; today: string }) {
  const say = useSay();
  const formats = useFormats();
  const { group, students, today } = props;
  const contracts = useAsk("home", ["contracts-of-group", group.id], (api) =>
    api.contracts.ofGroup({ groupId: group.id }),
  );
  return (contracts.data ?? []).map(({ id, studentId, signedOn, reviewOn }) => {
    const student = students.find((each) => each.id === studentId);
    if (student === undefined || (signedOn !== null && reviewOn > today)) return null;
    const { name } = student;
    const words =
      signedOn === null
        ? say("contract.signWaits", { name })
        : say("contract.reviewDue", { name, day: formats.day(reviewOn) });
    const what = `contract ${id} ${signedOn === null ? "signatures" : "review"}`;
    return (
      <WaitingItem key={id} what={what} named={words}>
        {words}{" "}
        <Link
          to={`/groups/${group.id}/students/${studentId}/contract`}
          aria-label={say("contract.openNamed", { name })}
        >
          {say("contract.open")}
        </Link>
      </WaitingItem>
    );
  });
}
