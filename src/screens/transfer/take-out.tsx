import { useState } from "react";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";
import type { Group, Student } from "../../../shared/roster/roster.ts";
import type { HomePapers } from "../../../shared/transfer/home-papers.ts";
import type { LedgerLine } from "../../../shared/transfer/ledger-line.ts";
import type { Api } from "../../api/api.ts";
import { useStudents, useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Pick } from "../../parts/field.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Problem } from "../../parts/problem.tsx";
import { usePoints } from "../../points/use-points.ts";
import { deviceDay } from "../../text/device-time.ts";
import { useSay } from "../../text/text.tsx";
import { groupCsv } from "../../transfer/group-csv.ts";
import { groupRecord } from "../../transfer/group-record.ts";
import { ledgerCsv } from "../../transfer/ledger-csv.ts";
import { fileName, saveFile } from "../../transfer/save-file.ts";
import { wholeRecord } from "../../transfer/whole-record.ts";

/** Saves the group's record as a file, or all that is kept about one student. */
export function TakeOut({ group }: { group: Group }) {
  const say = useSay();
  const save = useTell(async (api, form: "csv" | "json") => {
    const counts = await groupCounts(api, group);
    const name = fileName(group.name, counts.today, form);
    if (form === "csv") {
      saveFile(groupCsv(counts), name, "text/csv");
      return name;
    }
    const alternations = await api.alternations.list({ groupId: group.id });
    const program = await api.program.get({ groupId: group.id });
    const decisions = await api.advice.decisions({ groupId: group.id });
    const ledger = await wholeLedger(api, group.id);
    const teams = await api.teams.state({ groupId: group.id });
    const pairs = await api.pairs.state({ groupId: group.id });
    const papers: HomePapers[] = [];
    for (const { id } of counts.students) papers.push(await api.agreed.papers({ studentId: id }));
    const record = groupRecord(
      { counts, alternations, program, decisions, ledger, teams, pairs, papers },
      Date.now(),
    );
    saveFile(pretty(record), name, "application/json");
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

/** The group's counts with all that goes with them, asked for once as they are now. */
async function groupCounts(api: Api, group: Group): Promise<GroupCounts> {
  const groupId = group.id;
  const [logged, students, phases, daysOff, { today }] = await Promise.all([
    api.analysis.counts({ groupId }),
    allStudents(api, groupId),
    api.phases.list({ groupId }),
    api.calendar.daysOff(),
    api.calendar.timetable(),
  ]);
  return { ...logged, group, students, phases, daysOff, today };
}

/** Who is in use first, in the order of the roster, then who is archived. */
async function allStudents(api: Api, groupId: string): Promise<Student[]> {
  const lists = await Promise.all([
    api.students.list({ groupId, archived: false }),
    api.students.list({ groupId, archived: true }),
  ]);
  return lists.flat();
}

/** Every entry of a group's ledger, asked for piece by piece. */
async function wholeLedger(api: Api, groupId: string): Promise<LedgerLine[]> {
  const lines: LedgerLine[] = [];
  for (let after: number | null = 0; after !== null; ) {
    const piece: Awaited<ReturnType<Api["points"]["ledger"]>> = await api.points.ledger({
      groupId,
      after,
    });
    lines.push(...piece.lines);
    after = piece.next;
  }
  return lines;
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

const pretty = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;

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
