import type { RosterRow } from "../../../shared/api/transfer.ts";
import { pictureLabel, pictureNamed } from "../../class/pictures/picture-names.ts";
import { useSay } from "../../text/text.tsx";
import type { ReadLines } from "../../transfer/read-each.ts";
import { PreviewTable } from "./preview-table.tsx";

/** The students that would be added: how many, and the first of them. */
export function RosterPreview({ read: { rows } }: { read: ReadLines<RosterRow> }) {
  const say = useSay();
  if (rows.length === 0) return <p>{say("transfer.nothing")}</p>;
  return (
    <section className="transfer-preview" aria-label={say("transfer.preview")}>
      <h3>{say("transfer.preview")}</h3>
      <p>{say("transfer.rosterCounts", { count: rows.length })}</p>
      <PreviewTable
        rows={rows}
        heads={["transfer.field.student", "transfer.field.target", "transfer.field.picture"]}
        cellsOf={({ name, target, picture }) => {
          const shown = pictureNamed(picture);
          return [
            name,
            target === "" ? say("transfer.groupsTarget") : target,
            say(shown === null ? "picture.none" : pictureLabel(shown)),
          ];
        }}
      />
    </section>
  );
}
