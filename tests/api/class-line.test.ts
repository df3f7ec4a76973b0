import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { WebSocket } from "ws";
import { classLines } from "../../electron/host/class-line.ts";
import { type Desktop, openDesktop } from "../../electron/host/desktop.ts";
import { type LoopbackHost, openLoopback } from "../../electron/loopback/host.ts";
import type { Handlers } from "../../electron/services/base/handlers.ts";
import type { Ticket } from "../../shared/api/entry.ts";
import { procedures } from "../../shared/api/procedures.ts";
import type { Session } from "../../shared/api/sessions.ts";
import { type Api, ApiError, type Link, linkOver } from "../../src/api/client.ts";
import { enter } from "../../src/api/enter.ts";
import { addStudents } from "../setup/add-students.ts";
import { type ManualClock, manualClock } from "../support/manual-clock.ts";
import {
  type Carried,
  entryLine,
  impatient,
  inMemory,
  invitationIn,
  overPort,
  until,
} from "./support/carriers.ts";

// Children sit at the class screen. What its line opens is this list and no more; a procedure that is declared
// later is closed until somebody writes it here.
const open = [
  "app.changes",
  "app.info",
  "app.settings",
  "classScreen.leave",
  "points.board",
  "points.ownPurse",
  "points.saveFor",
  "practice.examples",
  "chimes.sound",
  "sessions.clock",
  "sessions.cueCalls",
  "sessions.cueDelivered",
  "sessions.cueMeans",
  "sessions.cueUndelivered",
  "sessions.get",
  "sessions.leaveCues",
  "sessions.mark",
  "sessions.open",
  "sessions.watch",
  "teams.onClassScreen",
];
const everything = Object.entries(procedures).flatMap(([subject, names]) =>
  Object.keys(names).map((name) => `${subject}.${name}`),
);

let folder: string;
let clock: ManualClock;
let desktop: Desktop;
let session: Session;
let studentIds: string[];
let groupId: string;

const context = { clientId: "adult", signal: new AbortController().signal };
const adult = () => desktop.handlers;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "pebblechime-class-"));
  clock = manualClock();
  desktop = await openDesktop({ folder, clock, host: "loopback", version: "0.0.1" });
  const group = await adult().groups.create({ name: "Maple", target: "On my work" }, context);
  groupId = group.id;
  await addStudents(adult(), groupId, ["Ash", "Birch"], context);
  const students = await adult().students.list({ groupId, archived: false }, context);
  studentIds = students.map(({ id }) => id);
  const [first = ""] = studentIds;
  const own = { target: "A target of my own", holdGoal: 0.37 };
  await adult().students.update({ id: first, ...own }, context);
  session = await start("seatwork");
});
afterEach(async () => {
  await desktop.close();
  rmSync(folder, { recursive: true, force: true });
});

async function start(kind: "seatwork" | "practice", cueing?: "own"): Promise<Session> {
  const [plan] = await adult().plans.list({ groupId }, context);
  if (cueing !== undefined && plan !== undefined) {
    const { id, name, settings } = plan;
    await adult().plans.update({ id, name, settings: { ...settings, cueing } }, context);
  }
  const asked = { groupId, planId: plan?.id ?? "", kind, seed: "a-secret-seed" };
  return adult().sessions.start(asked, context);
}

/** Calls by name, as any program could that got hold of the line. */
async function ask(api: Api, name: string, input: unknown): Promise<unknown> {
  const [subject = "", procedure = ""] = name.split(".");
  // By name, so that what is declared later is asked for too.
  const calls = api as unknown as Record<
    string,
    Record<string, (input: unknown) => Promise<unknown>>
  >;
  return calls[subject]?.[procedure]?.(input);
}

const codeOf = (asking: Promise<unknown>) =>
  asking.then(
    () => "answered",
    (error: unknown) => {
      if (!(error instanceof ApiError)) return String(error);
      return error.failure.kind === "refused" ? error.failure.code : error.failure.kind;
    },
  );

/** What adults do, each with an input that is good. */
const adults: readonly (readonly [string, () => unknown])[] = [
  ["sessions.pause", () => ({ sessionId: session.id })],
  ["sessions.resume", () => ({ sessionId: session.id })],
  ["sessions.skipCue", () => ({ sessionId: session.id })],
  ["sessions.end", () => ({ sessionId: session.id })],
  ["sessions.note", () => ({ sessionId: session.id, text: "x" })],
  ["sessions.interruption", () => ({ sessionId: session.id, note: "x" })],
  ["sessions.setAside", () => ({ sessionId: session.id, studentId: studentIds[0], aside: true })],
  [
    "sessions.spotCheck",
    () => ({ sessionId: session.id, studentId: studentIds[0], cue: null, value: "on" }),
  ],
  ["sessions.list", () => ({ groupId: null, limit: 5 })],
  ["students.list", () => ({ groupId, archived: false })],
  ["students.erase", () => ({ id: studentIds[0] })],
  ["students.update", () => ({ id: studentIds[0], name: "x" })],
  ["groups.list", () => ({ archived: false })],
  ["plans.list", () => ({ groupId })],
  ["analysis.counts", () => ({ groupId })],
  ["phases.list", () => ({ groupId })],
  ["calendar.daysOff", () => undefined],
  ["program.get", () => ({ groupId })],
  ["app.saveSettings", () => ({ theme: "dark" })],
  ["app.addSample", () => undefined],
  ["classScreen.enter", () => ({ here: true })],
  ["classScreen.code", () => undefined],
  ["classScreen.setCode", () => ({ code: null })],
];

interface ClassCarried extends Pick<Carried, "link" | "close"> {
  /** How often the way out was taken. */
  left(): number;
}

/** The class screen's line as a test's own handlers, over a carrier that hands them on as they are. */
const lineOver =
  (carry: (handlers: Handlers) => Promise<Carried>) => async (): Promise<ClassCarried> => {
    let left = 0;
    const line = classLines(adult())(() => {
      left += 1;
      return null;
    });
    const { link, close } = await carry(line);
    return { link, close, left: () => left };
  };

/** A tab of the loopback host that has swapped its ticket. */
async function overTicket(): Promise<ClassCarried> {
  const host = await hostOf(adult());
  const teachers = tab(host, invitationIn(host.invite()));
  const { ticket } = await teachers.api.classScreen.enter({ here: false });
  if (ticket === null) throw new Error("no ticket");
  let left = 0;
  const link = tab(host, ticket);
  const { leave } = link.api.classScreen;
  const counted: typeof leave = async (input, options) => {
    const answer = await leave(input, options);
    left += 1;
    return answer;
  };
  const api = { ...link.api, classScreen: { ...link.api.classScreen, leave: counted } };
  const close = async () => {
    teachers.close();
    link.close();
    await host.close();
  };
  return { link: { ...link, api }, close, left: () => left };
}

const hostOf = (handlers: Handlers) =>
  openLoopback({ handlers, appFolder: join(import.meta.dirname, "support", "page") });

/** A page that holds a ticket, as a tab does. */
function tab(host: LoopbackHost, ticket: Ticket): Link {
  let kept = ticket;
  return linkOver(async () => {
    const socket = new WebSocket(`ws://127.0.0.1:${host.port}/api`, { origin: host.origin });
    const line = entryLine(socket);
    kept = await enter(line, kept);
    return { ...line, scope: kept.scope };
  }, impatient);
}

const carriers: readonly (readonly [string, () => Promise<ClassCarried>])[] = [
  ["in memory", lineOver(inMemory)],
  ["over a port", lineOver(overPort)],
  ["over a socket", overTicket],
];

describe.each(carriers)("the class screen's line %s", (_name, carry) => {
  let carried: ClassCarried;
  let api: Api;
  beforeEach(async () => {
    carried = await carry();
    api = carried.link.api;
  });
  afterEach(() => carried.close());

  /** What the line is told of a session, up to its end. */
  async function kindsUntilEnd(sessionId: string): Promise<string[]> {
    const kinds: string[] = [];
    const watching = new AbortController();
    for await (const { body } of await api.sessions.watch({ sessionId, after: 0 }, watching)) {
      kinds.push(body.kind);
      if (body.kind === "ended") break;
    }
    return kinds;
  }

  it("refuses every procedure but the few that are listed, whatever is sent", async () => {
    const [studentId = ""] = studentIds;
    const sessionId = session.id;
    // Inputs that each kind of procedure would take, so that none is turned away for its form alone.
    const inputs = inputsFor({ groupId, studentId, sessionId });
    const answered: string[] = [];
    for (const name of everything.filter((each) => !open.includes(each))) {
      const codes = await Promise.all(inputs.map((input) => codeOf(ask(api, name, input))));
      if (codes.some((code) => code !== "class-screen" && code !== "bad-input"))
        answered.push(name);
    }
    expect(answered).toEqual([]);
  });

  it("refuses what adults do with good input, and does nothing", async () => {
    for (const [name, input] of adults) {
      expect(await codeOf(ask(api, name, input())), name).toBe("class-screen");
    }
    const { status } = (await adult().sessions.open(undefined, context)) ?? {};
    expect(status).toBe("running");
    expect(await adult().students.list({ groupId, archived: false }, context)).toHaveLength(2);
  });

  it("shows the session that is open and takes its marks", async () => {
    const sessionId = session.id;
    const shown = await api.sessions.get({ sessionId });
    expect(shown.students.map(({ name }) => name)).toEqual(["Ash", "Birch"]);
    expect((await api.sessions.open())?.id).toBe(sessionId);
    const cues: number[] = [];
    const calls = new AbortController();
    void (async () => {
      for await (const call of await api.sessions.cueCalls(
        { sessionId, window: "class", can: "sight" },
        calls,
      )) {
        if (call.kind === "announced") cues.push(call.cue);
      }
    })().catch(() => undefined);
    await until(() => {
      clock.advance(1_000);
      return cues.length > 0;
    }, "a cue was called");
    const [cue = 0] = cues;
    const { monotonicMs } = await api.sessions.clock();
    const began = { sessionId, cue, beganMonotonicMs: monotonicMs, by: "sight" as const };
    await api.sessions.cueDelivered({ ...began, problem: null });
    const [studentId = ""] = studentIds;
    expect(await api.sessions.mark({ sessionId, studentId, cue, value: "on" })).toMatchObject({
      late: false,
    });
    // To take it back is a mark too.
    await api.sessions.mark({ sessionId, studentId, cue, value: "none" });
    calls.abort();
  });

  it("tells nothing of what an adult saw or noted, no target of a student's own, no cue to come", async () => {
    const sessionId = session.id;
    const [studentId = ""] = studentIds;
    const text = "A note about a child";
    await api.sessions.open();
    await adult().sessions.note({ sessionId, text }, context);
    await adult().sessions.interruption({ sessionId, note: text }, context);
    await adult().sessions.spotCheck({ sessionId, studentId, cue: null, value: "off" }, context);
    await adult().sessions.leaveOut({ sessionId, reason: text, isTrial: false }, context);
    await adult().sessions.setAside({ sessionId, studentId, aside: true }, context);
    const opened = await api.sessions.open();
    await adult().sessions.end({ sessionId }, context);
    expect(await kindsUntilEnd(sessionId)).toEqual(["begun", "set-aside", "ended"]);
    const got = await api.sessions.get({ sessionId });
    const told = JSON.stringify([opened, got, await api.app.info()]);
    expect(told).not.toContain(text);
    expect(told).not.toContain("A target of my own");
    expect(told).not.toContain("0.37");
    expect(told).not.toContain("a-secret-seed");
    expect(told).not.toContain(folder);
  });

  it("tells of no cue of a student's own and of no answer, and takes none", async () => {
    await adult().sessions.end({ sessionId: session.id }, context);
    session = await start("seatwork", "own");
    const sessionId = session.id;
    const [studentId = ""] = studentIds;
    await api.sessions.open();
    clock.advance(600_000);
    await adult().sessions.setAside({ sessionId, studentId, aside: true }, context);
    await adult().sessions.end({ sessionId }, context);
    expect(await kindsUntilEnd(sessionId)).toEqual(["begun", "set-aside", "ended"]);
    const all: string[] = [];
    for await (const { body } of await adult().sessions.watch({ sessionId, after: 0 }, context)) {
      all.push(body.kind);
      if (body.kind === "ended") break;
    }
    // There was something to be kept back.
    expect(all).toContain("undelivered");
    const mark = { sessionId, studentId, cue: 1, value: "on" } as const;
    expect(await codeOf(api.sessions.mark(mark))).toBe("class-screen");
    const away = { sessionId, studentId, cue: 1, away: true };
    expect(await codeOf(api.sessions.sayAway(away))).toBe("class-screen");
  });

  it("shows no earlier session, and the last one until another is open", async () => {
    const first = session.id;
    await api.sessions.get({ sessionId: first });
    await adult().sessions.end({ sessionId: first }, context);
    expect(await codeOf(api.sessions.get({ sessionId: first }))).toBe("answered");
    session = await start("seatwork");
    expect(await codeOf(api.sessions.get({ sessionId: session.id }))).toBe("answered");
    const [studentId = ""] = studentIds;
    for (const refused of [
      api.sessions.get({ sessionId: first }),
      api.sessions.mark({ sessionId: first, studentId, cue: 1, value: "on" }),
      api.sessions.cueUndelivered({ sessionId: first, cue: 1, problem: "x" }),
    ]) {
      expect(await codeOf(refused)).toBe("class-screen");
    }
    const stream = api.sessions.watch({ sessionId: first, after: 0 });
    const read = stream.then(async (items) => {
      for await (const _ of items) return;
    });
    expect(await codeOf(read)).toBe("class-screen");
  });

  it("gives the sentences of a practice while it is held, and only of its group", async () => {
    expect(await codeOf(api.practice.examples({ groupId }))).toBe("class-screen");
    await adult().sessions.end({ sessionId: session.id }, context);
    session = await start("practice");
    expect(await codeOf(api.practice.examples({ groupId }))).toBe("answered");
    expect(await codeOf(api.practice.examples({ groupId: session.id }))).toBe("class-screen");
  });

  it("lets go when the way out is taken, with the code where one is set", async () => {
    await adult().classScreen.setCode({ code: "4711" }, context);
    expect(await codeOf(api.classScreen.leave({ code: null }))).toBe("code-wrong");
    expect(await codeOf(api.classScreen.leave({ code: "0815" }))).toBe("code-wrong");
    expect(carried.left()).toBe(0);
    expect(await codeOf(api.classScreen.leave({ code: "4711" }))).toBe("answered");
    expect(carried.left()).toBe(1);
  });
});

/** Something that each procedure might take. */
function inputsFor(ids: Record<"groupId" | "studentId" | "sessionId", string>): unknown[] {
  const [id] = Object.values(ids);
  return [
    undefined,
    {},
    ids,
    ...Object.entries(ids).map(([name, value]) => ({ [name]: value })),
    { id },
    { ...ids, code: null },
    { code: null },
    { here: true },
    { limit: 10, groupId: null },
    { archived: false },
    { archived: false, groupId: ids.groupId },
  ];
}

describe("tickets of the loopback host", () => {
  let host: LoopbackHost;
  const links: Link[] = [];
  const tabOf = (ticket: Ticket) => {
    const link = tab(host, ticket);
    links.push(link);
    return link;
  };
  beforeEach(async () => {
    host = await hostOf(adult());
  });
  afterEach(async () => {
    for (const link of links.splice(0)) link.close();
    await host.close();
  });

  it("a swapped ticket opens the class screen and nothing else, after a reload too", async () => {
    const teachers = tabOf(invitationIn(host.invite()));
    const { ticket } = await teachers.api.classScreen.enter({ here: false });
    if (ticket === null) throw new Error("no ticket");
    expect(ticket.scope).toBe("class");
    // A page that says of itself that it is the teacher's is not believed.
    for (const held of [ticket, { ...ticket, scope: "teacher" } as const]) {
      const link = tabOf(held);
      expect(await codeOf(link.api.groups.list({ archived: false }))).toBe("class-screen");
      expect(await codeOf(link.api.sessions.get({ sessionId: session.id }))).toBe("answered");
      expect(link.scope()).toBe("class");
    }
  });

  it("the way out gives the whole back, and ends the narrower ticket", async () => {
    const teachers = tabOf(invitationIn(host.invite()));
    await teachers.api.classScreen.setCode({ code: "4711" });
    const { ticket } = await teachers.api.classScreen.enter({ here: false });
    if (ticket === null) throw new Error("no ticket");
    const classes = tabOf(ticket);
    expect(await codeOf(classes.api.classScreen.leave({ code: "1111" }))).toBe("code-wrong");
    const { ticket: whole } = await classes.api.classScreen.leave({ code: "4711" });
    if (whole === null) throw new Error("no ticket");
    const again = tabOf(whole);
    expect(await codeOf(again.api.groups.list({ archived: false }))).toBe("answered");
    expect(again.scope()).toBe("teacher");
    const copied = tabOf(ticket);
    await until(() => copied.state() === "barred", "the copied ticket opens nothing");
  });

  it("taken in the adult's own place, it ends what tabs that were closed before still hold", async () => {
    const asTab = async () => {
      const socket = new WebSocket(`ws://127.0.0.1:${host.port}/api`, { origin: host.origin });
      const ticket = await enter(entryLine(socket), invitationIn(host.invite()));
      const closed = new Promise((resolve) => socket.on("close", resolve));
      const close = () => {
        socket.terminate();
        return closed;
      };
      return { ticket, close };
    };
    const before = await asTab();
    await before.close();
    const boards = await asTab();
    const own = await asTab();
    await own.close();
    const teachers = tabOf(own.ticket);
    await teachers.api.classScreen.enter({ here: false });
    expect(await codeOf(tabOf(before.ticket).api.groups.list({ archived: false }))).toBe(
      "answered",
    );
    for (const link of links.splice(1)) link.close();
    await until(() => teachers.state() === "open", "the teacher's line");
    await new Promise((resolve) => setTimeout(resolve, 100));

    await teachers.api.classScreen.enter({ here: true });
    teachers.close();
    for (const [ticket, opens] of [
      [before.ticket, false],
      [own.ticket, false],
      [boards.ticket, true],
    ] as const) {
      const again = tabOf(ticket);
      await until(() => ["open", "barred"].includes(again.state()), "the tab's answer");
      expect(again.state()).toBe(opens ? "open" : "barred");
    }
    await boards.close();
  });
});
