import { Link, useParams } from "react-router";
import { useStudents } from "../api/queries.ts";
import { Button } from "../parts/button.tsx";
import { Notice } from "../parts/notice.tsx";
import { WhoseCues } from "../parts/whose-cues.tsx";
import { useFormats, useSay } from "../text/text.tsx";
import { usePlanSummary, wordEvery, wordSeconds } from "../words/plan-summary.ts";
import { keyCues, readMean } from "./key-cues.ts";
import { intoEvenSheets, rowsBelow } from "./paper.ts";
import { PrintGap } from "./print-gap.tsx";
import { PrintPage } from "./print-page.tsx";
import { SeedField, useSeed } from "./seed-field.tsx";
import { Sheet } from "./sheet.tsx";
import { wordsHeight } from "./text-lines.ts";
import { useOption } from "./use-option.ts";
import { usePaper } from "./use-paper.ts";
import { type PlanOfGroup, usePlan } from "./use-plan.ts";
import { WriteLine } from "./write-line.tsx";
import "./tables.css";

/** The moments of one session on paper, for whoever stands in for the teacher without this computer. */
export function CueKeyPage() {
  const { planId = "" } = useParams();
  const found = usePlan(planId);
  if (found.data === undefined || found.data === null) {
    return <PrintGap error={found.error} isMissing={found.data === null} />;
  }
  return <CueKey found={found.data} />;
}

/**
 * Millimetres beside the texts themselves, as `tables.css` has them: of every sheet, and of the first one more.
 * The caution's frame and the steps' numbers make their lines shorter: lines for those that break are kept.
 */
const spaceMm = { every: 25, first: 29 } as const;
const steps = [1, 2, 3, 4, 5] as const;

function CueKey({ found: { plan, group } }: { found: PlanOfGroup }) {
  const say = useSay();
  const summary = usePlanSummary();
  const { paper = "A4" } = usePaper();
  const [seed, setSeed] = useSeed();
  const students = useStudents(group.id).data ?? [];
  const [studentId, setStudentId] = useOption("student", "");
  const student = students.find(({ id }) => id === studentId) ?? null;
  const [mean, setMean] = useOption("mean", "");
  const { settings, schedule } = keyCues(plan.settings, {
    seed,
    studentId: student?.id ?? null,
    meanSeconds: readMean(mean),
  });
  const cues = schedule?.cues ?? [];
  const whose = student === null ? "group" : "one";
  const rows = cues.map((time, index) => ({ number: index + 1, time }));
  const head = {
    heading:
      student === null
        ? say("print.key.heading", { group: group.name })
        : say("print.key.headingOne", { student: student.name, group: group.name }),
    caution: say("print.key.caution"),
    plan: `${plan.name}: ${summary(settings)}`,
    seed: say("print.key.seed", { seed, stream: schedule?.streamName ?? "", cues: cues.length }),
  };
  const how = steps.map((step) => say(`print.key.step${step}`, { whose }));
  const everyMm =
    spaceMm.every +
    wordsHeight(paper, [
      [head.heading, 18],
      ...[head.caution, head.plan, head.seed].map((text) => [text, 11] as const),
    ]);
  const firstMm =
    spaceMm.first +
    wordsHeight(paper, [[say("print.key.what"), 12], ...how.map((text) => [text, 11] as const)]);
  const sheets = intoEvenSheets(
    rows,
    rowsBelow(paper, everyMm + firstMm),
    rowsBelow(paper, everyMm),
  );
  const title = say("print.key.title", { plan: plan.name });

  return (
    <PrintPage
      title={title}
      back={<Link to={`/groups/${group.id}/plans/${plan.id}`}>{plan.name}</Link>}
      fileName={`${title} ${seed}`}
      lead={say("print.key.lead")}
      options={
        <>
          <SeedField seed={seed} onChange={setSeed} />
          <WhoseCues
            students={students}
            student={student}
            onChange={(id) => setStudentId(id ?? "")}
          />
        </>
      }
      notes={
        <>
          {settings.meanSeconds === plan.settings.meanSeconds ? null : (
            <Notice>
              <p>
                {say("print.key.thinned", {
                  mean: wordEvery(say, settings.meanSeconds),
                  own: wordSeconds(say, plan.settings.meanSeconds),
                })}
              </p>
              <Button onPress={() => setMean("")}>{say("print.key.asItStands")}</Button>
            </Notice>
          )}
          {plan.settings.cueing === "own" && student === null ? (
            <Notice kind="caution">{say("ownCues.chooseKey")}</Notice>
          ) : null}
          {schedule === null ? (
            <Notice kind="caution">{say("refused.plan-impossible")}</Notice>
          ) : null}
        </>
      }
    >
      {sheets.map((onSheet, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a sheet is its place in the stack
        <Sheet key={index} number={index + 1} count={sheets.length} kind="text">
          <header className="paper-head">
            <h2>{head.heading}</h2>
            <p className="paper-caution">{head.caution}</p>
            <p>{head.plan}</p>
            <p>{head.seed}</p>
          </header>
          {index === 0 ? <FirstWords how={how} /> : null}
          <Cues label={title} rows={onSheet} />
          <Sheets number={index + 1} count={sheets.length} />
        </Sheet>
      ))}
    </PrintPage>
  );
}

/** What stands on the first sheet alone: when it was, and what to do. */
function FirstWords({ how }: { how: readonly string[] }) {
  const say = useSay();
  return (
    <>
      <div className="paper-lines">
        <WriteLine label={say("print.card.date")} />
        <WriteLine label={say("print.key.substitute")} />
        <WriteLine label={say("print.key.began")} />
      </div>
      <section className="paper-steps">
        <h3>{say("print.key.what")}</h3>
        <ol>
          {how.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
      </section>
    </>
  );
}

function Cues(props: { label: string; rows: readonly { number: number; time: number }[] }) {
  const say = useSay();
  const formats = useFormats();
  const { label, rows } = props;
  return (
    <table className="paper-table" aria-label={label}>
      <thead>
        <tr>
          <th scope="col">{say("print.key.cue")}</th>
          <th scope="col">{say("print.key.time")}</th>
          <th scope="col">{say("print.key.delivered")}</th>
          <th scope="col" className="paper-wide">
            {say("print.key.checked")}
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ number, time }) => (
          <tr key={number}>
            <th scope="row">{number}</th>
            <td className="paper-time">{formats.clock(time)}</td>
            <td>
              <span className="paper-box" />
            </td>
            <td />
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Sheets({ number, count }: { number: number; count: number }) {
  const say = useSay();
  return count === 1 ? null : <p className="paper-foot">{say("print.sheet", { number, count })}</p>;
}
