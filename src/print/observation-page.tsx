import { useState } from "react";
import { Link, useParams } from "react-router";
import type { Plan } from "../../shared/api/plans.ts";
import type { Group, Student } from "../../shared/roster/roster.ts";
import { checkPlan } from "../../shared/schedule/check-plan.ts";
import { sessionSchedule } from "../../shared/schedule/session-schedule.ts";
import { lookIntervals, planForKind, usualLookInterval } from "../../shared/session/kind-plan.ts";
import { mostObserved, observedAt } from "../../shared/session/observation-rotation.ts";
import { useGroups, usePlans } from "../api/queries.ts";
import { useWilling } from "../home/use-agreed.ts";
import { Choices, Switch } from "../parts/field.tsx";
import { Notice } from "../parts/notice.tsx";
import { sheetOptions } from "../parts/sheet-options.ts";
import { useSay } from "../text/text.tsx";
import { intoSheets, type Paper, paperSizes } from "./paper.ts";
import { PrintGap } from "./print-gap.tsx";
import { PrintPage } from "./print-page.tsx";
import { SeedField, useSeed } from "./seed-field.tsx";
import { Sheet } from "./sheet.tsx";
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
const rowMm = 8;
const wordsMm = { first: 166, next: 80 } as const;
/** Each own target takes up to so much of the first sheet. */
const ownTargetMm = 14;

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
  const first = wordsMm.first + own.length * ownTargetMm;
  const sheets = intoSheets(rows, rowsOn(paper, first), rowsOn(paper, wordsMm.next));
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
            <h2>{say("print.observation.heading", { group: group.name })}</h2>
            <p>
              {say("print.observation.plan", {
                plan: plan.name,
                minutes: Math.round(settings.lengthSeconds / 60),
              })}
            </p>
            <p>{say("print.observation.seed", { seed, cues })}</p>
          </header>
          {index === 0 ? (
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
          ) : null}
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

const rowsOn = (paper: Paper, words: number): number =>
  Math.max(1, Math.floor((paperSizes[paper].height - words) / rowMm));

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
