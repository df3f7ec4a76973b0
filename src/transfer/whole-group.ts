import type { GroupCounts } from "../../shared/record/group-counts.ts";
import type { Group, Student } from "../../shared/roster/roster.ts";
import type { HomePapers } from "../../shared/transfer/home-papers.ts";
import type { LedgerLine } from "../../shared/transfer/ledger-line.ts";
import type { Api } from "../api/api.ts";
import { groupRecord } from "./group-record.ts";
import { fileName, pretty, saveFile } from "./save-file.ts";

/** Saves all that is kept of a group as one file, archived or not; gives the file's name. */
export async function saveWholeGroup(api: Api, group: Group): Promise<string> {
  const counts = await groupCounts(api, group);
  const alternations = await api.alternations.list({ groupId: group.id });
  const program = await api.program.get({ groupId: group.id });
  const decisions = await api.advice.decisions({ groupId: group.id });
  const ledger = await wholeLedger(api, group.id);
  const points = await api.points.state({ groupId: group.id });
  const teams = await api.teams.state({ groupId: group.id });
  const pairs = await api.pairs.state({ groupId: group.id });
  const papers: HomePapers[] = [];
  for (const { id } of counts.students) papers.push(await api.agreed.papers({ studentId: id }));
  const record = groupRecord(
    { counts, alternations, program, decisions, ledger, points, teams, pairs, papers },
    Date.now(),
  );
  const name = fileName(group.name, counts.today, "json");
  saveFile(pretty(record), name, "application/json");
  return name;
}

/** The group's counts with all that goes with them, asked for once as they are now. */
export async function groupCounts(api: Api, group: Group): Promise<GroupCounts> {
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
export async function allStudents(api: Api, groupId: string): Promise<Student[]> {
  const lists = await Promise.all([
    api.students.list({ groupId, archived: false }),
    api.students.list({ groupId, archived: true }),
  ]);
  return lists.flat();
}

/** Every entry of a group's ledger, asked for piece by piece. */
export async function wholeLedger(api: Api, groupId: string): Promise<LedgerLine[]> {
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
