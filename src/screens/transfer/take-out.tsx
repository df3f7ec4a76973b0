import { useState } from "react";
import type { Group } from "../../../shared/roster/roster.ts";
import { useStudents, useTell } from "../../api/queries.ts";
import { usePoints } from "../../class/points/use-points.ts";
import { Button } from "../../parts/button.tsx";
import { Pick } from "../../parts/field.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Problem } from "../../parts/problem.tsx";
import { deviceDay } from "../../text/device-time.ts";
import { useSay } from "../../text/text.tsx";
import { groupCsv } from "../../transfer/group-csv.ts";
import { ledgerCsv } from "../../transfer/ledger-csv.ts";
import { fileName, pretty, saveFile } from "../../transfer/save-file.ts";
import {
  allStudents,
  groupCounts,
  saveWholeGroup,
  wholeLedger,
} from "../../transfer/whole-group.ts";
import { wholeRecord } from "../../transfer/whole-record.ts";

/** Saves the group's record as a file, or all that is kept about one student. */
export function TakeOut({ group }: { group: Group }) {
  const say = useSay();
  const save = useTell(async (api, form: "csv" | "json") => {
    if (form === "json") return saveWholeGroup(api, group);
    const counts = await groupCounts(api, group);
    const name = fileName(group.name, counts.today, form);
    saveFile(groupCsv(counts), name, "text/csv");
    return name;
  });
  return (
    <>
      <Notice title={say("transfer.caution")}>{say("transfer.cautionBody")}</Notice>
      <div className="transfer-choices">
        <div className="transfer-choice">
          <h3>{say("transfer.csv")}</h3>
          <p>{say("transfer.csvHelp")}</p>
          <Button isDisabled={save.isPending} onPress={() => save.mutate("csv")}>
            {say("transfer.saveCsv")}
          </Button>
        </div>
        <div className="transfer-choice">
          <h3>{say("transfer.json")}</h3>
          <p>{say("transfer.jsonHelp")}</p>
          <Button isDisabled={save.isPending} onPress={() => save.mutate("json")}>
            {say("transfer.saveJson")}
          </Button>
        </div>
        <StudentOut groupId={group.id} />
        <LedgerOut group={group} />
      </div>
      <Saved name={save.data} />
      <Problem error={save.error} />
    </>
  );
}

/** The ledger of points as a table; absent where no plan earns. */
function LedgerOut({ group }: { group: Group }) {
  const say = useSay();
  const points = usePoints(group.id);
  const save = useTell(async (api) => {
    const lines = await wholeLedger(api, group.id);
    const { today } = await api.calendar.timetable();
    const name = fileName(`${group.name} ${say("points.title")}`, today, "csv");
    saveFile(ledgerCsv(lines, await allStudents(api, group.id)), name, "text/csv");
    return name;
  });
  if (points?.on !== true) return null;
  return (
    <div className="transfer-choice">
      <h3>{say("points.ledger")}</h3>
      <p>{say("points.ledgerHelp")}</p>
      <Button isDisabled={save.isPending} onPress={() => save.mutate(undefined)}>
        {say("transfer.saveLedger")}
      </Button>
      <Saved name={save.data} />
      <Problem error={save.error} />
    </div>
  );
}

function Saved({ name }: { name: string | undefined }) {
  const say = useSay();
  return (
    <p role="status" className="transfer-status">
      {name === undefined ? null : say("transfer.saved", { name })}
    </p>
  );
}

function StudentOut({ groupId }: { groupId: string }) {
  const say = useSay();
  const present = useStudents(groupId).data ?? [];
  const archived = useStudents(groupId, true).data ?? [];
  const students = [...present, ...archived];
  const [chosen, setChosen] = useState("");
  const student = students.find(({ id }) => id === chosen) ?? students[0];
  const save = useTell(async (api, studentId: string) => {
    const record = await wholeRecord((from) => api.transfer.studentRecord({ studentId, from }));
    const name = fileName(record.student.name, deviceDay(record.exportedMs), "json");
    saveFile(pretty(record), name, "application/json");
    return name;
  });
  return (
    <div className="transfer-choice">
      <h3>{say("transfer.student")}</h3>
      <p>{say("transfer.studentHelp")}</p>
      {student === undefined ? (
        <p>{say("transfer.noStudents")}</p>
      ) : (
        <>
          <Pick
            label={say("transfer.whichStudent")}
            value={student.id}
            choices={students.map(({ id, name }) => ({ value: id, label: name }))}
            onChange={setChosen}
          />
          <Button isDisabled={save.isPending} onPress={() => save.mutate(student.id)}>
            {say("transfer.saveStudent")}
          </Button>
        </>
      )}
      <Saved name={save.data} />
      <Problem error={save.error} />
    </div>
  );
}
