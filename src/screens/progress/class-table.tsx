import { useState } from "react";
import { Link } from "react-router";
import type { GroupReading, StudentGlance } from "../../../shared/reading/group-reading.ts";
import { toldChance } from "../../../shared/reading/told-chance.ts";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";
import type { Program } from "../../../shared/roster/program.ts";
import { programFor } from "../../../shared/roster/program.ts";
import { Scroll } from "../../charts/scroll.tsx";
import { Switch } from "../../parts/field.tsx";
import { Section } from "../../parts/page.tsx";
import { useProgram } from "../../reading/use-program.ts";
import { wordChance } from "../../words/advice-words.ts";
import { wordTrend } from "../../words/trend-word.ts";
import { useVoice } from "../../words/use-voice.ts";
import { type Voice, wordFlag } from "../../words/words.ts";

interface ClassTableProps {
  readonly counts: GroupCounts;
  readonly reading: GroupReading;
}

/** One line for each student, in the roster's order: nobody is ranked. */
export function ClassTable({ counts, reading }: ClassTableProps) {
  const voice = useVoice();
  const { say } = voice;
  const program = useProgram(counts.group.id);
  const [isFiltered, setFiltered] = useState(false);
  const students = new Map(counts.students.map((student) => [student.id, student]));
  const programOf = (id: string) =>
    program === undefined ? undefined : programFor(program, students.get(id));
  const names = new Map(counts.students.map(({ id, name }) => [id, name]));
  const pointedOut = reading.students.filter(({ flags }) => flags.length > 0).length;
  const shown = reading.students.filter(({ flags }) => !isFiltered || flags.length > 0);
  return (
    <Section
      title={say("class.title")}
      actions={
        <Switch
          label={say("class.onlyLook", { students: pointedOut })}
          value={isFiltered}
          onChange={setFiltered}
        />
      }
    >
      <Scroll label={say("class.title")}>
        <table className="progress-table class-table" aria-label={say("class.title")}>
          <thead>
            <tr>
              <th scope="col">{say("glance.student")}</th>
              <th scope="col">{say("class.week")}</th>
              <th scope="col">{say("class.sinceStart")}</th>
              <th scope="col">{say("class.goal")}</th>
              <th scope="col">{say("class.lastCheck")}</th>
              <th scope="col">{say("class.look")}</th>
            </tr>
          </thead>
          <tbody>
            {shown.map((glance) => (
              <tr key={glance.studentId}>
                <th scope="row">
                  <Link to={`/progress/${counts.group.id}/${glance.studentId}`}>
                    {names.get(glance.studentId) ?? ""}
                  </Link>
                </th>
                <td>{newestWeek(voice, glance)}</td>
                <td>{sinceStart(voice, glance)}</td>
                <td>{goalChance(voice, glance, programOf(glance.studentId))}</td>
                <td>{lastCheck(voice, counts, glance.studentId)}</td>
                <td>{glance.flags.map((flag) => wordFlag(voice, flag)).join(" ")}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
      {shown.length === 0 ? <p>{say("class.nobody")}</p> : null}
    </Section>
  );
}

/** The rate of the newest school week with marks. */
function newestWeek({ formats }: Voice, { weeks }: StudentGlance): string {
  const rate = weeks.rate[weeks.rate.length - 1];
  return rate === undefined ? "–" : formats.percent(rate);
}

/** The trend of the present phase in one word. */
const sinceStart = (voice: Voice, { said, observedOnly }: StudentGlance): string =>
  observedOnly ? voice.say("class.trend.few") : wordTrend(voice, said.trend);

function goalChance(voice: Voice, glance: StudentGlance, program: Program | undefined): string {
  if (program === undefined || glance.observedOnly) return "–";
  const chance = toldChance(glance, program);
  return chance === null ? voice.say("class.trend.few") : wordChance(voice, chance);
}

function lastCheck({ say, formats }: Voice, counts: GroupCounts, studentId: string): string {
  const last = counts.checks.findLast(
    (check) => check.studentId === studentId && check.seen !== "unseen",
  );
  return last === undefined ? say("class.never") : formats.shortDay(last.day);
}
