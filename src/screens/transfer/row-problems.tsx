import { longestSubject } from "../../../shared/plan/plan.ts";
import { longestTarget } from "../../../shared/transfer/import-limits.ts";
import { Scroll } from "../../charts/scroll.tsx";
import { Notice } from "../../parts/notice.tsx";
import { type Say, useSay } from "../../text/text.tsx";
import type { RowProblem } from "../../transfer/read-each.ts";

/** Everything that is wrong with a file, line by line; nothing when all is well. */
export function RowProblems({ problems }: { problems: readonly RowProblem[] }) {
  const say = useSay();
  if (problems.length === 0) return null;
  const lines = new Set(problems.map(({ line }) => line)).size;
  return (
    <Notice kind="caution" title={say("transfer.badLines", { count: lines })}>
      <p>{say("transfer.badLinesHelp")}</p>
      <Scroll className="transfer-problems" label={say("transfer.badLinesList")}>
        <ul>
          {problems.map((problem) => (
            <li key={keyOf(problem)}>
              {say("transfer.line", { line: problem.line })} {wordRow(say, problem)}
            </li>
          ))}
        </ul>
      </Scroll>
    </Notice>
  );
}

const keyOf = (problem: RowProblem): string =>
  `${problem.line} ${problem.kind} ${problem.kind === "field" ? problem.field : ""}`;

function wordRow(say: Say, problem: RowProblem): string {
  switch (problem.kind) {
    case "field":
      return say(`transfer.bad.${problem.field}`, { found: shortened(problem.found) });
    case "name-long":
      return say("transfer.bad.nameLong", { found: shortened(problem.found) });
    case "name-taken":
      return say("transfer.bad.nameTaken", { found: shortened(problem.found) });
    case "name-repeats":
      return say("transfer.bad.nameRepeats", { earlier: problem.earlier });
    case "target-long":
      return say("transfer.bad.targetLong", { most: longestTarget });
    case "subject-long":
      return say("transfer.bad.subjectLong", { most: longestSubject });
    case "subject-differs":
      return say("transfer.bad.subjectDiffers", { found: shortened(problem.found) });
    case "phase-differs":
      return say("transfer.bad.phaseDiffers", { found: shortened(problem.found) });
    case "no-marks":
      return say("transfer.bad.noMarks");
    case "correct-over":
      return say("transfer.bad.correctOver", {
        correct: problem.correct,
        completed: problem.completed,
      });
    case "many-marks":
      return say("transfer.bad.manyMarks", { found: problem.found });
    case "time-unlikely":
      return say("transfer.bad.timeUnlikely", { found: problem.found });
    case "repeats":
      return say("transfer.bad.repeats", { earlier: problem.earlier });
    case "quote-open":
      return say("transfer.bad.quoteOpen");
    case "columns-differ":
      return say("transfer.bad.columnsDiffer", { have: problem.have, most: problem.most });
  }
}

const longest = 40;

const shortened = (text: string): string =>
  text.length <= longest ? text : `${text.slice(0, longest)}…`;
