import { Link, useParams, useSearchParams } from "react-router";
import { useGroups, usePlans, useTimetable } from "../../api/queries.ts";
import { useWilling } from "../../class/home/use-agreed.ts";
import { Page } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";
import { HeldForm } from "./held-form.tsx";
import "./held.css";

/** Enters a session that was held without the app, from the printed key, the recording or a count. */
export function HeldScreen() {
  const say = useSay();
  const { groupId = "" } = useParams();
  const [asked] = useSearchParams();
  const group = useGroups().data?.find(({ id }) => id === groupId);
  const plans = usePlans(groupId);
  const students = useWilling(groupId, "cued");
  const today = useTimetable().data?.today;
  const error = plans.error ?? students.error;
  if (
    group === undefined ||
    plans.data === undefined ||
    students.students === undefined ||
    today === undefined
  ) {
    return (
      <Page title={say("held.title")}>
        {error === null ? say("wait") : <Problem error={error} />}
      </Page>
    );
  }
  const planId = asked.get("plan");
  const day = asked.get("day");
  return (
    <Page
      title={say("held.title")}
      back={<Link to="/">{say("nav.today")}</Link>}
      lead={say("held.lead", { group: group.name })}
    >
      {students.students.length === 0 && students.out === 0 ? (
        <p>
          {say("seats.empty")} <Link to={`/groups/${groupId}`}>{say("groups.addStudents")}</Link>
        </p>
      ) : (
        <HeldForm
          key={`${groupId} ${planId} ${day}`}
          groupId={groupId}
          plans={plans.data}
          students={students.students}
          firstPlanId={planId}
          firstDay={day ?? today}
        />
      )}
    </Page>
  );
}
