import { useState } from "react";
import { Link, useParams } from "react-router";
import type { PointsState } from "../../../shared/api/points.ts";
import { savesTooMuch } from "../../../shared/points/saving.ts";
import type { Group } from "../../../shared/roster/roster.ts";
import { useGroups, usePlans, useSettings, useStudents } from "../../api/queries.ts";
import { useWilling } from "../../class/home/use-agreed.ts";
import { usePoints } from "../../class/points/use-points.ts";
import { usePointsBoard } from "../../class/points/use-points-board.ts";
import { ClassScreenButton } from "../../live/class-screen/class-screen-button.tsx";
import { Choices } from "../../parts/field.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Page, Section } from "../../parts/page.tsx";
import { useFormats, useSay } from "../../text/text.tsx";
import { ByPrivilege } from "./by-privilege.tsx";
import { ByStudent } from "./by-student.tsx";
import { EndPoints, Spending } from "./end-points.tsx";
import { LastExchange } from "./last-exchange.tsx";
import { Periods } from "./periods.tsx";
import { Privileges } from "./privileges.tsx";
import { Receipts } from "./receipts.tsx";
import { Timers } from "./timers.tsx";
import { useBuy } from "./use-buy.ts";
import "./points.css";

/** A group's points: exchanging them, and what they buy. For the adult; the class looks elsewhere. */
export function PointsScreen() {
  const say = useSay();
  const { groupId = "" } = useParams();
  const group = useGroups().data?.find(({ id }) => id === groupId);
  const points = usePoints(groupId);
  if (group === undefined || points === undefined) {
    return <Page title={say("points.title")}>{say("wait")}</Page>;
  }
  const back = <Link to={`/groups/${group.id}`}>{group.name}</Link>;
  if (!points.on) {
    return (
      <Page title={say("points.title")} back={back}>
        <NoPoints groupId={group.id} />
      </Page>
    );
  }
  return (
    <Page
      title={say("points.title")}
      back={back}
      lead={say("points.lead")}
      actions={
        <>
          <Link to={`/print/prices/${group.id}`}>{say("points.printPrices")}</Link>
          <Link to={`/print/slips/${group.id}`}>{say("points.printSlips")}</Link>
        </>
      }
    >
      <Spending points={points} />
      <Exchange group={group} points={points} />
      {points.earns ? (
        <>
          <Section title={say("points.privileges")}>
            <Privileges groupId={group.id} points={points} />
          </Section>
          <Section title={say("points.periods")}>
            <Periods groupId={group.id} points={points} />
          </Section>
          <SavingNotes group={group} points={points} />
          <EndPoints groupId={group.id} points={points} />
        </>
      ) : null}
    </Page>
  );
}

/** Why there are none, with the way to where that is decided. */
function NoPoints({ groupId }: { groupId: string }) {
  const say = useSay();
  const plans = usePlans(groupId).data ?? [];
  const settings = useSettings();
  if (settings?.points === false) {
    return (
      <p>
        {say("points.offEverywhere")} <Link to="/settings">{say("nav.settings")}</Link>
      </p>
    );
  }
  return (
    <>
      <p>{say("points.offHere")}</p>
      <ul>
        {plans.map(({ id, name }) => (
          <li key={id}>
            <Link to={`/groups/${groupId}/plans/${id}`}>{name}</Link>
          </li>
        ))}
      </ul>
    </>
  );
}

const ways = ["student", "privilege"] as const;

function Exchange({ group, points }: { group: Group; points: PointsState }) {
  const say = useSay();
  const students = useWilling(group.id, "points").students ?? [];
  const [way, setWay] = useState<(typeof ways)[number]>("student");
  const buying = useBuy();
  const shared = { students, points, buying };
  return (
    <Section title={say("points.exchange")}>
      {points.privileges.length === 0 ? (
        <p>{say("points.noPrivileges")}</p>
      ) : (
        <>
          <Choices
            label={say("points.way")}
            inRow
            value={way}
            onChange={setWay}
            choices={ways.map((value) => ({ value, label: say(`points.way.${value}`) }))}
          />
          <LastExchange buying={buying} points={points} />
          {way === "student" ? <ByStudent {...shared} /> : <ByPrivilege {...shared} />}
        </>
      )}
      <HandOver groupId={group.id} />
      <Receipts students={students} points={points} buying={buying} />
      <Timers points={points} />
    </Section>
  );
}

/** Hands the screen to the class that sits, where students look at their own points only. */
function HandOver({ groupId }: { groupId: string }) {
  const say = useSay();
  const { board } = usePointsBoard();
  if (board?.groupId !== groupId || board.students.length === 0) return null;
  return (
    <div className="points-hand-over">
      <ClassScreenButton onOpened={() => undefined} />
      <span className="points-help">{say("purse.handOver")}</span>
    </div>
  );
}

/** Whether points are saved up rather than spent, and who holds back; for the adult alone. */
function SavingNotes({ group, points }: { group: Group; points: PointsState }) {
  const say = useSay();
  const formats = useFormats();
  const students = useStudents(group.id).data ?? [];
  const { saving } = points;
  const names = students
    .filter(({ id }) => saving.notSpending.includes(id))
    .map(({ name }) => name);
  if (!savesTooMuch(saving) && names.length === 0) return null;
  return (
    <Notice title={say("points.saving")}>
      {savesTooMuch(saving) ? (
        <p>
          {say("points.savingGroup", {
            days: formats.number(saving.medianDays ?? 0, 1),
            share: formats.percent(saving.spentShare ?? 0),
          })}
        </p>
      ) : null}
      {names.length === 0 ? null : (
        <p>{say("points.notSpending", { names: formats.list(names) })}</p>
      )}
    </Notice>
  );
}
