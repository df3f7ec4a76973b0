import { expect, it } from "vitest";
import { readSessions } from "../../../../electron/commands/session-rows.ts";
import type { AdviceDecision } from "../../../../shared/api/advice.ts";
import type { Phase } from "../../../../shared/phase/phase.ts";
import type { GroupCounts } from "../../../../shared/record/group-counts.ts";
import type { Program } from "../../../../shared/roster/program.ts";
import { groupRecordSchema } from "../../../../shared/transfer/group-record.ts";
import type { HomePapers } from "../../../../shared/transfer/home-papers.ts";
import { parsePhase, phaseText } from "../../../../shared/transfer/phase-text.ts";
import { groupCsv } from "../../../../src/transfer/group-csv.ts";
import { groupRecord } from "../../../../src/transfer/group-record.ts";

const noTeams = {
  teams: { settings: null, names: [], wishes: [], rounds: [] },
  pairs: { lessons: [] },
};

const id = (last: number) => `01900000-0000-7000-8000-${String(last).padStart(12, "0")}`;

/** What was agreed of one student, with a card that came back and a contract. */
const papers: HomePapers[] = [
  {
    studentId: id(2),
    agreed: [{ line: "cued", answer: "yes", day: "2026-02-16", who: "Mother" }],
    reviewOn: "2026-06-01",
    language: "es",
    homeCards: [
      {
        id: id(21),
        fromDay: "2026-02-16",
        card: {
          goals: ["Begin at once"],
          periods: ["Reading"],
          scale: { kind: "scale", goodEnd: "five", weights: [0, 5, 10, 15, 20] },
          homework: true,
          selfRecord: false,
        },
      },
    ],
    homeCardDays: [
      {
        cardId: id(21),
        day: "2026-02-16",
        ratings: [4],
        homework: "",
        wentWell: "Began at once",
        tomorrow: "",
      },
    ],
    contracts: [
      {
        id: id(22),
        terms: {
          wording: "older",
          goal: { kind: "rate", rate: 0.8, measure: "adult" },
          points: 0,
          earns: "Choose the game",
          cost: 0,
          checkedBy: "Ms Reed",
        },
        fromDay: "2026-02-16",
        reviewOn: "2026-03-02",
        signedOn: "2026-02-16",
        endedOn: null,
        closedDays: ["2026-02-16"],
      },
    ],
  },
  {
    studentId: id(3),
    agreed: [],
    reviewOn: null,
    language: null,
    homeCards: [],
    homeCardDays: [],
    contracts: [],
  },
];
const groupId = id(1);
const student = (place: number, name: string) => ({
  id: id(place),
  groupId,
  name,
  picture: null,
  target: "",
  holdGoal: null,
  hasMoved: false,
  archived: false,
});
const phase = (place: number, kind: Phase["kind"], startsOn: string, label = ""): Phase => ({
  id: id(place),
  groupId,
  studentId: null,
  kind,
  label,
  startsOn,
  draw: null,
  probes: null,
});

const counts: GroupCounts = {
  group: {
    id: groupId,
    name: "Room 4",
    target: "",
    isSample: false,
    archived: false,
    studentCount: 2,
  },
  students: [student(2, "Pine"), student(3, "=Otter, the 2nd")],
  sessions: [
    {
      id: id(4),
      kind: "baseline",
      startedMs: Date.UTC(2026, 1, 16, 8, 15),
      offsetMinutes: 60,
      day: "2026-02-16",
      meanSeconds: 120,
      subject: "",
      cuesDelivered: 5,
      note: "A note, with a comma",
    },
    {
      id: id(5),
      kind: "seatwork",
      startedMs: Date.UTC(2026, 1, 23, 8, 15),
      offsetMinutes: -330,
      day: "2026-02-23",
      meanSeconds: 120,
      subject: "Maths",
      cuesDelivered: 9,
      note: "",
    },
  ],
  counts: [
    {
      studentId: id(2),
      self: { on: [null, 6], off: [null, 2], missing: [null, 1] },
      observer: { on: [3, null], off: [1, null], missing: [1, null] },
    },
    {
      studentId: id(3),
      self: { on: [null, 0], off: [null, 9], missing: [null, 0] },
      observer: { on: [null, null], off: [null, null], missing: [null, null] },
    },
  ],
  checks: [
    { studentId: id(2), sessionId: id(5), day: "2026-02-23", cue: 3, student: "on", seen: "off" },
  ],
  leftOut: [],
  freeLooks: [],
  observerPairs: [],
  work: [{ studentId: id(2), sessionId: id(5), assigned: 10, completed: 8, correct: null }],
  phases: [phase(6, "baseline", "2026-02-16"), phase(7, "intervention", "2026-02-20", "dense")],
  daysOff: [{ id: id(9), firstDay: "2026-02-17", lastDay: "2026-02-17", label: "Outing" }],
  today: "2026-03-02",
};

const program: Program = {
  groupId,
  goal: 0.8,
  stepMeansSeconds: [120, 240],
  place: 1,
  placeSince: "2026-02-20",
  placeSinceMs: null,
  pointsPaid: true,
};
const decisions: AdviceDecision[] = [
  {
    id: id(10),
    groupId,
    studentId: null,
    advice: "keep-going",
    accepted: false,
    note: "Fair week",
    decidedMs: 0,
    day: "2026-02-27",
  },
];

it("the CSV file has a line for each student, session and source", () => {
  expect(groupCsv(counts)).toBe(
    [
      "student,started_at,phase,source,on_task,off_task,no_mark,subject,assigned,completed,correct",
      "Pine,2026-02-23T02:45:00-05:30,intervention dense,self,6,2,1,Maths,10,8,",
      "Pine,2026-02-16T09:15:00+01:00,baseline,observer,3,1,1,,,,",
      `"'=Otter, the 2nd",2026-02-23T02:45:00-05:30,intervention dense,self,0,9,0,Maths,,,`,
      "",
    ].join("\r\n"),
  );
});

it("the command line reads the CSV file", () => {
  expect(readSessions(groupCsv(counts))).toMatchObject([
    { student: "Pine", source: "observer", on: 3, off: 1, missing: 1, phaseKind: "baseline" },
    {
      student: "Pine",
      source: "self",
      on: 6,
      off: 2,
      missing: 1,
      phaseKind: "intervention",
      subject: "Maths",
      work: { assigned: 10, completed: 8, correct: null },
    },
    { student: "=Otter, the 2nd", source: "self", on: 0, off: 9, missing: 0, work: null },
  ]);
});

it("a phase is named by its kind and its label, or its number when it comes again", () => {
  const phases = [
    phase(1, "baseline", "2026-02-01"),
    phase(2, "intervention", "2026-02-08"),
    phase(3, "baseline", "2026-02-15"),
    phase(4, "fading", "2026-02-22", "every five minutes"),
  ];
  const days = ["2026-01-31", "2026-02-01", "2026-02-14", "2026-02-15", "2026-03-30"];
  expect(days.map((day) => phaseText(phases, day))).toEqual([
    "",
    "baseline",
    "intervention",
    "baseline 2",
    "fading every five minutes",
  ]);
  expect(parsePhase("Fading every Five minutes")).toEqual({
    kind: "fading",
    label: "every Five minutes",
  });
  expect(parsePhase("baseline 2")).toEqual({ kind: "baseline", label: "2" });
  for (const text of ["", "before", "baselines", `baseline ${"x".repeat(61)}`]) {
    expect(parsePhase(text)).toBeUndefined();
  }
});

const privilege = {
  id: id(50),
  groupId,
  name: "Choose my seat",
  picture: "house",
  price: 5,
  band: 1 as const,
  places: 2,
  minutes: 10,
  perDay: 1,
  notFor: [id(3)],
};
const points = {
  privileges: [privilege],
  periods: [{ id: id(51), name: "Morning", starts: "08:00", ends: "10:00", exchange: true }],
};

it("the JSON file holds all of it, in the form that is documented", () => {
  const record = groupRecord(
    { counts, alternations: [], program, decisions, ledger: [], points, ...noTeams, papers },
    Date.UTC(2026, 2, 2, 10),
  );
  expect(groupRecordSchema.parse(JSON.parse(JSON.stringify(record)))).toEqual(record);
  const { id: _id, groupId: _groupId, ...facts } = privilege;
  expect(record.privileges).toEqual([facts]);
  expect(record.periods).toEqual([
    { name: "Morning", starts: "08:00", ends: "10:00", exchange: true },
  ]);
  // Of whom nothing was agreed or written there is nothing to say.
  expect(record.papers).toEqual(papers.slice(0, 1));
  expect(record.exportedAt).toBe("2026-03-02T10:00:00.000Z");
  expect(record.counts).toEqual([
    { studentId: id(2), sessionId: id(5), source: "self", onTask: 6, offTask: 2, noMark: 1 },
    { studentId: id(2), sessionId: id(4), source: "observer", onTask: 3, offTask: 1, noMark: 1 },
    { studentId: id(3), sessionId: id(5), source: "self", onTask: 0, offTask: 9, noMark: 0 },
  ]);
  expect(record.sessions.map(({ startedAt, note }) => [startedAt, note])).toEqual([
    ["2026-02-16T09:15:00+01:00", "A note, with a comma"],
    ["2026-02-23T02:45:00-05:30", ""],
  ]);
  expect(record.spotChecks).toHaveLength(1);
  expect(record.work).toHaveLength(1);
  expect(record.phases).toHaveLength(2);
  expect(record.sessions.map(({ subject }) => subject)).toEqual(["", "Maths"]);
  expect(record.program).toEqual({
    goal: 0.8,
    stepMeansSeconds: [120, 240],
    place: 1,
    placeSince: "2026-02-20",
    pointsPaid: true,
  });
  expect(record.decisions).toEqual([
    {
      studentId: null,
      advice: "keep-going",
      accepted: false,
      note: "Fair week",
      day: "2026-02-27",
    },
  ]);
  expect(record.daysOff).toEqual([
    { firstDay: "2026-02-17", lastDay: "2026-02-17", label: "Outing" },
  ]);
});

it("of two conditions by turns the JSON file tells what was held, and the seed only at the end", () => {
  const order = "ABBABAABAB";
  const about = {
    id: id(30),
    groupId,
    nameA: "Music",
    nameB: "Quiet",
    order,
    seed: "kiwi",
    times: 1,
  };
  const held = (sessions: number) =>
    groupRecord(
      {
        counts,
        alternations: [
          {
            ...about,
            sessions: Array.from({ length: sessions }, (_, at) => ({
              sessionId: id(40 + at),
              place: at + 1,
            })),
          },
        ],
        program,
        decisions,
        ledger: [],
        points: { privileges: [], periods: [] },
        ...noTeams,
        papers,
      },
      0,
    );
  const underWay = groupRecordSchema.parse(held(2));
  expect(underWay.alternations).toEqual([
    {
      nameA: "Music",
      nameB: "Quiet",
      planned: 10,
      times: 1,
      seed: null,
      held: [
        { sessionId: id(40), condition: "A" },
        { sessionId: id(41), condition: "B" },
      ],
    },
  ]);
  expect(JSON.stringify(underWay)).not.toContain(order);
  const [ended] = groupRecordSchema.parse(held(10)).alternations;
  expect(ended?.seed).toBe("kiwi");
  expect(ended?.held.map(({ condition }) => condition).join("")).toBe(order);
});
