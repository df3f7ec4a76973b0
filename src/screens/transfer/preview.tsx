import type { ImportRow } from "../../../shared/api/transfer.ts";
import { nameKey } from "../../../shared/roster/name-key.ts";
import { parseMoment } from "../../../shared/transfer/moment.ts";
import { type PhaseStart, phaseStarts } from "../../../shared/transfer/phase-starts.ts";
import { parsePhase } from "../../../shared/transfer/phase-text.ts";
import { useFormats, useSay } from "../../text/text.tsx";
import type { ReadLines } from "../../transfer/read-each.ts";
import { PreviewTable } from "./preview-table.tsx";

interface PreviewProps {
  readonly read: ReadLines<ImportRow>;
  /** Names of the group's students, archived ones included. */
  readonly taken: readonly string[];
}

/** The sessions that would be brought in: how many, who is new, and the first rows. */
export function Preview({ read: { rows }, taken }: PreviewProps) {
  const say = useSay();
  const formats = useFormats();
  if (rows.length === 0) return <p>{say("transfer.nothing")}</p>;
  const known = new Set(taken.map(nameKey));
  const names = new Map(rows.map(({ row }) => [nameKey(row.student), row.student]));
  const added = [...names].filter(([key]) => !known.has(key)).map(([, name]) => name);
  const moments = new Set(rows.map(({ row }) => parseMoment(row.startedAt)?.ms));
  return (
    <section className="transfer-preview" aria-label={say("transfer.preview")}>
      <h3>{say("transfer.preview")}</h3>
      <p>
        {say("transfer.previewCounts", {
          rows: rows.length,
          sessions: moments.size,
          students: names.size,
        })}
      </p>
      <p>
        {added.length === 0
          ? say("transfer.nobodyNew")
          : say("transfer.newStudents", { count: added.length, names: formats.list(added) })}
      </p>
      <PhasesToCome rows={rows} />
      <PreviewTable
        rows={rows}
        heads={[
          "transfer.field.student",
          "transfer.field.startedAt",
          "transfer.field.source",
          "transfer.field.on",
          "transfer.field.off",
          "transfer.field.missing",
          "transfer.field.phase",
          "transfer.field.subject",
          "transfer.field.assigned",
          "transfer.field.completed",
          "transfer.field.correct",
        ]}
        cellsOf={(row) => [
          row.student,
          <When key="when" startedAt={row.startedAt} />,
          say(`transfer.source.${row.source}`),
          row.on,
          row.off,
          row.missing,
          row.phase,
          row.subject,
          row.work?.assigned,
          row.work?.completed,
          row.work?.correct,
        ]}
      />
    </section>
  );
}

/** The phases that the file names, with their first days; nothing when it names none. */
function PhasesToCome({ rows }: Pick<PreviewProps["read"], "rows">) {
  const say = useSay();
  const formats = useFormats();
  const { group, own } = phaseStarts(
    rows.map(({ row }) => ({
      student: row.student,
      day: parseMoment(row.startedAt)?.day ?? "",
      phase: parsePhase(row.phase) ?? null,
    })),
  );
  if (group.length === 0) return null;
  const listed = (starts: readonly PhaseStart[]) =>
    starts.map(({ kind, label, startsOn }) =>
      say("transfer.phaseFrom", {
        phase: label === "" ? say(`phase.${kind}`) : `${say(`phase.${kind}`)} (${label})`,
        day: `${formats.day(startsOn)} ${startsOn.slice(0, 4)}`,
      }),
    );
  return (
    <>
      <p>{say("transfer.phases", { phases: formats.list(listed(group)) })}</p>
      {[...own].map(([student, starts]) => (
        <p key={student}>
          {say("transfer.ownPhases", { student, phases: formats.list(listed(starts)) })}
        </p>
      ))}
      <p>{say("transfer.phasesHelp")}</p>
    </>
  );
}

function When({ startedAt }: { startedAt: string }) {
  const formats = useFormats();
  const at = parseMoment(startedAt);
  if (at === undefined) return startedAt;
  return `${formats.day(at.day)} ${at.day.slice(0, 4)}, ${formats.time(at.ms, at.offsetMinutes)}`;
}
