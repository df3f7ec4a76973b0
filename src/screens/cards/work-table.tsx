import { useState } from "react";
import type { CardRow, Work } from "../../../shared/api/records.ts";
import { useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { More } from "../../parts/more.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

type Entry = Record<"assigned" | "completed" | "correct", string>;
const fields = ["assigned", "completed", "correct"] as const;
const emptyEntry: Entry = { assigned: "", completed: "", correct: "" };

const entryOf = (work: Work | undefined): Entry =>
  work === undefined
    ? emptyEntry
    : {
        assigned: String(work.assigned),
        completed: String(work.completed),
        correct: work.correct === null ? "" : String(work.correct),
      };

/** What an entry says: the work, nothing, or why it cannot be. */
function readEntry(studentId: string, entry: Entry): Work | "empty" | "incomplete" | "too-many" {
  if (fields.every((field) => entry[field] === "")) return "empty";
  const [assigned, completed, correct] = fields.map((field) =>
    /^\d{1,4}$/.test(entry[field]) ? Number(entry[field]) : null,
  );
  if (assigned === null || assigned === undefined) return "incomplete";
  if (completed === null || completed === undefined) return "incomplete";
  if (entry.correct !== "" && (correct === null || correct === undefined)) return "incomplete";
  if (completed > assigned || (correct ?? 0) > completed) return "too-many";
  return { studentId, assigned, completed, correct: correct ?? null };
}

/** Items assigned, completed and correct: working is the aim, not looking busy. */
export function WorkTable(props: {
  sessionId: string;
  rows: readonly CardRow[];
  work: readonly Work[];
}) {
  const say = useSay();
  const { sessionId, rows } = props;
  const [saved, setSaved] = useState(
    () => new Map(props.work.map((work) => [work.studentId, entryOf(work)])),
  );
  const [entries, setEntries] = useState(saved);
  const save = useTell((api, work: Work[]) => api.records.saveWork({ sessionId, work }));
  const of = (map: ReadonlyMap<string, Entry>, id: string) => map.get(id) ?? emptyEntry;
  const readings = rows.map(({ student }) => ({
    student,
    entry: of(entries, student.id),
    reading: readEntry(student.id, of(entries, student.id)),
    isChanged: JSON.stringify(of(entries, student.id)) !== JSON.stringify(of(saved, student.id)),
  }));
  const toSave = readings.flatMap(({ reading, isChanged }) =>
    isChanged && typeof reading === "object" ? [reading] : [],
  );
  const hasProblem = readings.some(
    ({ reading }) => reading === "incomplete" || reading === "too-many",
  );

  return (
    <More label={say("work.open")}>
      <p>{say("work.help")}</p>
      <table className="work-table" aria-label={say("work.open")}>
        <thead>
          <tr>
            <th scope="col">{say("end.student")}</th>
            {fields.map((field) => (
              <th key={field} scope="col">
                {say(`work.${field}`)}
              </th>
            ))}
            <th scope="col">
              <span className="only-for-readers">{say("work.remark")}</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {readings.map(({ student, entry, reading }) => (
            <tr key={student.id}>
              <th scope="row">{student.name}</th>
              {fields.map((field) => (
                <td key={field}>
                  <input
                    className="field-input work-input"
                    inputMode="numeric"
                    maxLength={4}
                    aria-label={say(`work.${field}Named`, { name: student.name })}
                    aria-invalid={reading === "incomplete" || reading === "too-many"}
                    value={entry[field]}
                    onChange={(event) =>
                      setEntries((now) =>
                        new Map(now).set(student.id, {
                          ...of(now, student.id),
                          [field]: event.target.value.trim(),
                        }),
                      )
                    }
                  />
                </td>
              ))}
              <td className="cards-problem">
                {reading === "incomplete" || reading === "too-many"
                  ? say(`work.problem.${reading}`)
                  : ""}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <Problem error={save.error} />
      <Button
        isDisabled={toSave.length === 0 || hasProblem || save.isPending}
        onPress={() => save.mutate(toSave, { onSuccess: () => setSaved(entries) })}
      >
        {say("work.save")}
      </Button>
    </More>
  );
}
