import { useState } from "react";
import { FileTrigger } from "react-aria-components";
import { useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Notice } from "../../parts/notice.tsx";
import { useSay } from "../../text/text.tsx";
import { decodeText, readTable, type Table } from "../../transfer/read-table.ts";
import { ChosenFile } from "./chosen-file.tsx";
import type { Understood } from "./use-understood.ts";

interface Chosen {
  /** Tells a file from the one chosen before it. */
  readonly number: number;
  readonly name: string;
  readonly table: Table;
}

/** More than any twenty thousand lines need. */
const mostBytes = 8 * 1024 * 1024;

/** Earlier records or a class from a CSV file: choose, say which column is which, look, bring in. */
export function BringIn({ groupId }: { groupId: string }) {
  const say = useSay();
  const [chosen, setChosen] = useState<Chosen | null>(null);
  const [isUnreadable, setUnreadable] = useState(false);
  const bringIn = useTell((api, { kind, read }: Understood) =>
    kind === "sessions"
      ? api.transfer.importSessions({ groupId, rows: read.rows.map(({ row }) => row) })
      : api.transfer.importStudents({ groupId, rows: read.rows.map(({ row }) => row) }),
  );

  const open = async (file: File | undefined) => {
    if (file === undefined) return;
    bringIn.reset();
    const text =
      file.size > mostBytes ? null : decodeText(new Uint8Array(await file.arrayBuffer()));
    const table = text === null ? null : readTable(text);
    setUnreadable(table === null);
    const number = (chosen?.number ?? 0) + 1;
    setChosen(table === null ? null : { number, name: file.name, table });
  };
  const close = () => setChosen(null);

  return (
    <div className="transfer-in">
      <p>{say("transfer.inHelp")}</p>
      <p>{say("transfer.rosterHelp")}</p>
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
              phases: bringIn.data.phasesAdded,
            })}
      </p>
      {chosen === null ? null : (
        <ChosenFile
          key={chosen.number}
          groupId={groupId}
          table={chosen.table}
          error={bringIn.error}
          isBusy={bringIn.isPending}
          onCancel={close}
          onBringIn={(understood) => bringIn.mutate(understood, { onSuccess: close })}
        />
      )}
    </div>
  );
}
