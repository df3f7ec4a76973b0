import { parseMoment } from "../../../shared/transfer/moment.ts";
import { useStudents } from "../../api/queries.ts";
import { useFormats, useSay } from "../../text/text.tsx";
import { foldedName, type ReadRows } from "../../transfer/read-rows.ts";

const shownRows = 6;

/** What would be brought in: how much, who is new, and the first rows as they were understood. */
export function Preview({ groupId, read }: { groupId: string; read: ReadRows }) {
  const say = useSay();
  const formats = useFormats();
  const present = useStudents(groupId).data ?? [];
  const archived = useStudents(groupId, true).data ?? [];
  const { rows } = read;
  if (rows.length === 0) return <p>{say("transfer.nothing")}</p>;
  const known = new Set([...present, ...archived].map(({ name }) => foldedName(name)));
  const names = new Map(rows.map(({ row }) => [foldedName(row.student), row.student]));
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
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
      <section className="transfer-scroll" tabIndex={0} aria-label={say("transfer.firstRows")}>
        <table className="transfer-table">
          <caption className="only-for-readers">{say("transfer.firstRows")}</caption>
          <thead>
            <tr>
              <th scope="col">{say("transfer.lineHead")}</th>
              <th scope="col">{say("transfer.field.student")}</th>
              <th scope="col">{say("transfer.field.startedAt")}</th>
              <th scope="col">{say("transfer.field.source")}</th>
              <th scope="col">{say("transfer.field.on")}</th>
              <th scope="col">{say("transfer.field.off")}</th>
              <th scope="col">{say("transfer.field.missing")}</th>
            </tr>
          </thead>
          <tbody>
            {rows.slice(0, shownRows).map(({ line, row }) => (
              <tr key={line}>
                <td>{line}</td>
                <th scope="row">{row.student}</th>
                <td>
                  <When startedAt={row.startedAt} />
                </td>
                <td>{say(`transfer.source.${row.source}`)}</td>
                <td>{row.on}</td>
                <td>{row.off}</td>
                <td>{row.missing}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {rows.length > shownRows ? (
        <p>{say("transfer.moreRows", { count: rows.length - shownRows })}</p>
      ) : null}
    </section>
  );
}

function When({ startedAt }: { startedAt: string }) {
  const formats = useFormats();
  const at = parseMoment(startedAt);
  if (at === undefined) return startedAt;
  return `${formats.day(at.day)} ${at.day.slice(0, 4)}, ${formats.time(at.ms, at.offsetMinutes)}`;
}
