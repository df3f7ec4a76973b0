import { useMemo, useState } from "react";
import { FileTrigger } from "react-aria-components";
import type { ImportRow } from "../../../shared/api/transfer.ts";
import { ApiError } from "../../api/api-error.ts";
import { useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";
import { guessMapping, type Mapping, mappingProblems } from "../../transfer/mapping.ts";
import { placesIn } from "../../transfer/places.ts";
import { mostRows, type ReadRows, readRows } from "../../transfer/read-rows.ts";
import { decodeText, readTable, type Table } from "../../transfer/read-table.ts";
import { MappingFields } from "./mapping-fields.tsx";
import { Preview } from "./preview.tsx";
import { RowProblems } from "./row-problems.tsx";

interface Chosen {
  readonly name: string;
  readonly table: Table;
}

/** More than any twenty thousand lines need. */
const mostBytes = 8 * 1024 * 1024;

/** Earlier records from a CSV file: choose, say which column is which, look, bring in. */
export function BringIn({ groupId }: { groupId: string }) {
  const say = useSay();
  const [chosen, setChosen] = useState<Chosen | null>(null);
  const [mapping, setMapping] = useState<Mapping>(guessMapping([]));
  const [source, setSource] = useState<ImportRow["source"]>("self");
  const [isUnreadable, setUnreadable] = useState(false);
  const bringIn = useTell((api, rows: ImportRow[]) =>
    api.transfer.importSessions({ groupId, rows }),
  );

  const open = async (file: File | undefined) => {
    if (file === undefined) return;
    bringIn.reset();
    const text =
      file.size > mostBytes ? null : decodeText(new Uint8Array(await file.arrayBuffer()));
    const table = text === null ? null : readTable(text);
    setUnreadable(table === null);
    setChosen(table === null ? null : { name: file.name, table });
    if (table !== null) setMapping(guessMapping(table.header));
  };
  const close = () => setChosen(null);

  return (
    <div className="transfer-in">
      <p>{say("transfer.inHelp")}</p>
      <div className="transfer-row">
        <FileTrigger
          acceptedFileTypes={[".csv", ".tsv", ".txt", "text/csv"]}
          onSelect={(files) => void open(files?.[0])}
        >
          <Button>{say("transfer.chooseFile")}</Button>
        </FileTrigger>
        {chosen === null ? null : <span>{say("transfer.chosen", { name: chosen.name })}</span>}
      </div>
      {isUnreadable ? (
        <Notice kind="caution" title={say("error.title")}>
          {say("transfer.unreadable")}
        </Notice>
      ) : null}
      <p role="status" className="transfer-status">
        {bringIn.data === undefined
          ? null
          : say("transfer.done", {
              sessions: bringIn.data.sessions,
              students: bringIn.data.studentsAdded,
            })}
      </p>
      {chosen === null ? null : (
        <ChosenFile
          groupId={groupId}
          table={chosen.table}
          mapping={mapping}
          source={source}
          onMapping={setMapping}
          onSource={setSource}
          error={bringIn.error}
          isBusy={bringIn.isPending}
          onCancel={close}
          onBringIn={(rows) => bringIn.mutate(rows, { onSuccess: close })}
        />
      )}
    </div>
  );
}

function ChosenFile(props: {
  groupId: string;
  table: Table;
  mapping: Mapping;
  source: ImportRow["source"];
  onMapping: (mapping: Mapping) => void;
  onSource: (source: ImportRow["source"]) => void;
  error: unknown;
  isBusy: boolean;
  onCancel: () => void;
  onBringIn: (rows: ImportRow[]) => void;
}) {
  const say = useSay();
  const { table, mapping, source } = props;
  const { absent, shared } = mappingProblems(mapping);
  const isMapped = absent.length === 0 && shared.length === 0;
  const read = useMemo(
    () => (isMapped ? readRows(table, { mapping, source, nowMs: Date.now() }) : null),
    [isMapped, table, mapping, source],
  );
  const canBringIn =
    read !== null &&
    read.problems.length === 0 &&
    read.rows.length > 0 &&
    read.rows.length <= mostRows;
  return (
    <>
      <MappingFields
        header={table.header}
        mapping={mapping}
        source={source}
        onMapping={props.onMapping}
        onSource={props.onSource}
      />
      {read === null ? null : (
        <>
          <RowProblems problems={read.problems} />
          {read.rows.length > mostRows ? (
            <Notice kind="caution">{say("transfer.tooManyRows", { most: mostRows })}</Notice>
          ) : null}
          <Preview groupId={props.groupId} read={read} />
        </>
      )}
      <RefusedRows error={props.error} read={read} />
      <div className="transfer-row">
        <Button
          look="main"
          isDisabled={!canBringIn || props.isBusy}
          onPress={() => props.onBringIn(read?.rows.map(({ row }) => row) ?? [])}
        >
          {say("transfer.bringIn", { count: canBringIn ? read.rows.length : 0 })}
        </Button>
        <Button onPress={props.onCancel}>{say("act.cancel")}</Button>
      </div>
    </>
  );
}

/** A refusal counts rows; the person who can mend them counts lines of the file. */
function RefusedRows({ error, read }: { error: unknown; read: ReadRows | null }) {
  const say = useSay();
  if (!(error instanceof ApiError) || error.failure.kind !== "refused" || read === null) {
    return <Problem error={error} />;
  }
  const { code, values } = error.failure;
  if (typeof values.rows !== "string") return <Problem error={error} />;
  const lines = placesIn(values.rows).map((place) => read.rows[place - 1]?.line ?? place);
  return (
    <Notice kind="caution" title={say("error.title")}>
      {say(`refused.${code}`, {
        ...values,
        rows: say("transfer.lines", { lines: lines.join(", ") }),
      })}
    </Notice>
  );
}
