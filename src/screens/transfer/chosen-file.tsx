import { useState } from "react";
import type { ImportRow } from "../../../shared/api/transfer.ts";
import { mostRows, mostStudents } from "../../../shared/transfer/import-limits.ts";
import { placesIn } from "../../../shared/transfer/places.ts";
import { ApiError } from "../../api/api-error.ts";
import { Button } from "../../parts/button.tsx";
import { Choices } from "../../parts/field.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";
import { guessKind, guessMapping, importKinds } from "../../transfer/mapping.ts";
import type { Table } from "../../transfer/read-table.ts";
import { MappingFields } from "./mapping-fields.tsx";
import { Preview } from "./preview.tsx";
import { RosterPreview } from "./roster-preview.tsx";
import { RowProblems } from "./row-problems.tsx";
import { type Understood, useTakenNames, useUnderstood } from "./use-understood.ts";

/** The most lines that one file may bring. */
const most = { sessions: mostRows, roster: mostStudents } as const;

interface ChosenFileProps {
  readonly groupId: string;
  readonly table: Table;
  readonly error: unknown;
  readonly isBusy: boolean;
  readonly onCancel: () => void;
  readonly onBringIn: (understood: Understood) => void;
}

/** What a file holds, which column is which, what is wrong with it, and what would be brought in. */
export function ChosenFile(props: ChosenFileProps) {
  const { groupId, table } = props;
  const say = useSay();
  const [mapping, setMapping] = useState(() => guessMapping(table.header));
  const [kind, setKind] = useState(() => guessKind(mapping));
  const [source, setSource] = useState<ImportRow["source"]>("self");
  const taken = useTakenNames(groupId);
  const understood = useUnderstood(table, { kind, mapping, source }, taken);
  const rows = understood?.read.rows.length ?? 0;
  const canBringIn =
    understood !== null && understood.read.problems.length === 0 && rows > 0 && rows <= most[kind];
  return (
    <>
      <Choices
        label={say("transfer.kind")}
        inRow
        value={kind}
        choices={importKinds.map((value) => ({ value, label: say(`transfer.kind.${value}`) }))}
        onChange={setKind}
      />
      <MappingFields
        kind={kind}
        header={table.header}
        mapping={mapping}
        source={source}
        onMapping={setMapping}
        onSource={setSource}
      />
      {understood === null ? null : (
        <>
          <RowProblems problems={understood.read.problems} />
          {rows > most[kind] ? (
            <Notice kind="caution">{say(`transfer.tooMany.${kind}`, { most: most[kind] })}</Notice>
          ) : null}
          {understood.kind === "sessions" ? (
            <Preview read={understood.read} taken={taken} />
          ) : (
            <RosterPreview read={understood.read} />
          )}
        </>
      )}
      <RefusedRows error={props.error} understood={understood} />
      <div className="transfer-row">
        <Button
          look="main"
          isDisabled={!canBringIn || props.isBusy}
          onPress={() => {
            if (canBringIn) props.onBringIn(understood);
          }}
        >
          {say("transfer.bringIn", { count: canBringIn ? rows : 0 })}
        </Button>
        <Button onPress={props.onCancel}>{say("act.cancel")}</Button>
      </div>
    </>
  );
}

/** A refusal counts rows; the person who can correct them counts lines of the file. */
function RefusedRows(props: { error: unknown; understood: Understood | null }) {
  const { error, understood } = props;
  const say = useSay();
  if (!(error instanceof ApiError) || error.failure.kind !== "refused" || understood === null) {
    return <Problem error={error} />;
  }
  const { code, values } = error.failure;
  if (typeof values.rows !== "string") return <Problem error={error} />;
  const { rows } = understood.read;
  const lines = placesIn(values.rows).map((place) => rows[place - 1]?.line ?? place);
  return (
    <Notice kind="caution" title={say("error.title")}>
      {say(`refused.${code}`, {
        ...values,
        rows: say("transfer.lines", { lines: lines.join(", ") }),
      })}
    </Notice>
  );
}
