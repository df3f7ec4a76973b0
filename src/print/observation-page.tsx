import { useState } from "react";
import { Link, useParams } from "react-router";
import type { Plan } from "../../shared/api/plans.ts";
import type { Group, Student } from "../../shared/roster/roster.ts";
import { checkPlan } from "../../shared/schedule/check-plan.ts";
import { sessionSchedule } from "../../shared/schedule/session-schedule.ts";
import { lookIntervals, planForKind, usualLookInterval } from "../../shared/session/kind-plan.ts";
import { mostObserved, observedAt } from "../../shared/session/observation-rotation.ts";
import { useGroups, usePlans } from "../api/queries.ts";
import { useWilling } from "../class/home/use-agreed.ts";
import { Choices, Switch } from "../parts/field.tsx";
import { Notice } from "../parts/notice.tsx";
import { sheetOptions } from "../parts/sheet-options.ts";
import { useSay } from "../text/text.tsx";
import { intoEvenSheets, rowsBelow } from "./paper.ts";
import { PrintGap } from "./print-gap.tsx";
import { PrintPage } from "./print-page.tsx";
import { SeedField, useSeed } from "./seed-field.tsx";
import { Sheet } from "./sheet.tsx";
import { type SizedText, wordsHeight } from "./text-lines.ts";
import { useChoice, useOption } from "./use-option.ts";
import { usePaper } from "./use-paper.ts";
import { WriteLine } from "./write-line.tsx";
import "./tables.css";

/** A sheet for whoever watches: at each cue one student in turn. */
export function ObservationPage() {
  const { groupId = "", planId = "" } = useParams();
  const groups = useGroups();
  const plans = usePlans(groupId);
  const students = useWilling(groupId, "observed");
  const group = groups.data?.find(({ id }) => id === groupId);
  const plan = plans.data?.find(({ id }) => id === planId);
  const error = groups.error ?? plans.error ?? students.error;
  if (group === undefined || plan === undefined || students.students === undefined) {
    const isKnown = groups.data !== undefined && plans.data !== undefined;
    return <PrintGap error={error} isMissing={isKnown && students.students !== undefined} />;
  }
  return <Observation group={group} plan={plan} students={students.students} />;
}

const paces = lookIntervals.map(String);
/** Millimetres beside the texts themselves, as `tables.css` has them: of every sheet, and of the first one more. */
const spaceMm = { every: 13, first: 19, between: 1.5 } as const;

const plain = (text: string): SizedText => [text, 11];

interface ObservationProps {
  group: Group;
  plan: Plan;
  students: readonly Student[];
}

function Observation({ group, plan, students }: ObservationProps) {
  const say = useSay();
  const { paper = "A4" } = usePaper();
  const [seed, setSeed] = useSeed();
  const watched = useWatched(students);
  const [pace, setPace] = useChoice("every", paces, String(usualLookInterval));
  const every = lookIntervals.find((one) => String(one) === pace) ?? usualLookInterval;
  const settings = planForKind(plan.settings, "baseline", every);
  const canRun = checkPlan(settings).length === 0;
  const cues = canRun ? sessionSchedule(settings, seed).cues.length : 0;
  const ids = watched.students.map(({ id }) => id);
  const startOptions = sheetOptions({ seed, studentIds: ids, pace: every });
  startOptions.set("plan", plan.id);
  const nameOf = new Map(students.map(({ id, name }) => [id, name]));
  const rows = Array.from({ length: ids.length === 0 ? 0 : cues }, (_, index) => ({
    cue: index + 1,
    name: nameOf.get(observedAt(index + 1, ids, seed)) ?? "",
  }));
  const own = watched.students.filter(({ target }) => target !== "");
  const head = {
    heading: say("print.observation.heading", { group: group.name }),
    plan: say("print.observation.plan", {
      plan: plan.name,
      minutes: Math.round(settings.lengthSeconds / 60),
    }),
    seed: say("print.observation.seed", { seed, cues }),
  };
  const how = [
    group.target,
    ...own.map(({ name, target }) => `${name}: ${target}`),
    say("print.observation.pace", { seconds: every }),
    say("print.observation.how"),
  ];
  const everyMm =
    spaceMm.every +
    wordsHeight(paper, [
      [head.heading, 18],
      ...[head.plan, head.seed, say("print.observation.keep")].map(plain),
    ]);
  const firstMm =
    spaceMm.first +
    how.length * spaceMm.between +
    wordsHeight(paper, [[say("print.observation.working"), 12], ...how.map(plain)]);
  const sheets = intoEvenSheets(
    rows,
    rowsBelow(paper, everyMm + firstMm),
    rowsBelow(paper, everyMm),
  );
  const title = say("print.observation.title", { group: group.name });

  return (
    <PrintPage
      title={title}
      back={<Link to={`/groups/${group.id}`}>{group.name}</Link>}
      fileName={`${title} ${seed}`}
      lead={say("print.observation.lead", { seed, seconds: every })}
      options={
        <>
          <SeedField seed={seed} onChange={setSeed} />
          <Choices
            label={say("observe.pace")}
            value={pace}
            onChange={setPace}
            choices={lookIntervals.map((seconds) => ({
              value: String(seconds),
              label: say("observe.paceOf", { seconds }),
            }))}
            inRow
          />
          <WatchedFields students={students} watched={watched} />
        </>
      }
      notes={
        <>
          {canRun && ids.length > 0 ? (
            <p>
              <Link to={`/groups/${group.id}/observe?${startOptions}`}>
                {say("print.observation.start")}
              </Link>
            </p>
          ) : null}
          {canRun ? null : <Notice kind="caution">{say("refused.plan-impossible")}</Notice>}
          {ids.length === 0 ? (
            <Notice kind="caution">{say("print.observation.nobody")}</Notice>
          ) : null}
        </>
      }
    >
      {sheets.map((onSheet, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a sheet is its place in the stack
        <Sheet key={index} number={index + 1} count={sheets.length} kind="text">
          <header className="paper-head">
            <h2>{head.heading}</h2>
            <p>{head.plan}</p>
            <p>{head.seed}</p>
          </header>
          {index === 0 ? <FirstWords group={group} own={own} every={every} /> : null}
          <Rows label={title} rows={onSheet} />
          <p className="paper-foot">
            {say("print.observation.keep")}{" "}
            {sheets.length === 1
              ? ""
              : say("print.sheet", { number: index + 1, count: sheets.length })}
          </p>
        </Sheet>
      ))}
    </PrintPage>
  );
}

/** What stands on the first sheet alone: who watched what, and how. */
function FirstWords(props: { group: Group; own: readonly Student[]; every: number }) {
  const say = useSay();
  const { group, own, every } = props;
  return (
    <>
      <div className="paper-lines">
        <WriteLine label={say("print.card.date")} />
        <WriteLine label={say("print.observation.observer")} />
        <WriteLine label={say("print.observation.subject")} />
      </div>
      <section className="paper-steps">
        <h3>{say("print.observation.working")}</h3>
        <p>{group.target}</p>
        {own.map(({ id, name, target }) => (
          <p key={id}>
            <strong>{name}:</strong> {target}
          </p>
        ))}
        <p>{say("print.observation.pace", { seconds: every })}</p>
        <p>{say("print.observation.how")}</p>
      </section>
    </>
  );
}

function Rows({ label, rows }: { label: string; rows: readonly { cue: number; name: string }[] }) {
  const say = useSay();
  return (
    <table className="paper-table" aria-label={label}>
      <thead>
        <tr>
          <th scope="col">{say("print.observation.look")}</th>
          <th scope="col" className="paper-wide">
            {say("print.observation.student")}
          </th>
          <th scope="col">{say("print.observation.on")}</th>
          <th scope="col">{say("print.observation.off")}</th>
          <th scope="col">{say("print.observation.unseen")}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ cue, name }) => (
          <tr key={cue}>
            <th scope="row">{cue}</th>
            <td>{name}</td>
            {["on", "off", "unseen"].map((value) => (
              <td key={value}>
                <span className="paper-box" />
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Who is watched: those named in the address, else the first of the list, as many as one person can follow. */
function useWatched(students: readonly Student[]) {
  const [text, setText] = useOption("students", "");
  const named = text === "" ? students.slice(0, mostObserved).map(({ id }) => id) : text.split(",");
  const chosen = students.filter(({ id }) => named.includes(id)).slice(0, mostObserved);
  const set = (ids: readonly string[]) => setText(ids.length === 0 ? "nobody" : ids.join(","));
  return { students: chosen, set };
}

function WatchedFields(props: {
  students: readonly Student[];
  watched: ReturnType<typeof useWatched>;
}) {
  const { students, watched } = props;
  const say = useSay();
  const [isFull, setFull] = useState(false);
  const ids = watched.students.map(({ id }) => id);
  const turn = (id: string, on: boolean) => {
    const next = on ? [...ids, id] : ids.filter((other) => other !== id);
    setFull(next.length > mostObserved);
    if (next.length <= mostObserved) watched.set(next);
  };
  return (
    <fieldset className="print-students">
      <legend>{say("print.observation.who", { most: mostObserved })}</legend>
      {students.map(({ id, name }) => (
        <Switch
          key={id}
          label={name}
          value={ids.includes(id)}
          onChange={(value) => turn(id, value)}
        />
      ))}
      <p role="status">{isFull ? say("print.observation.full", { most: mostObserved }) : ""}</p>
    </fieldset>
  );
}
