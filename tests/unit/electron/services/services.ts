import { adviceHandlers } from "../../../../electron/services/advice.ts";
import { alternationHandlers } from "../../../../electron/services/alternations.ts";
import { analysisHandlers } from "../../../../electron/services/analysis.ts";
import { changeFeed } from "../../../../electron/services/base/changes.ts";
import type { CallContext } from "../../../../electron/services/base/handlers.ts";
import { Refusal } from "../../../../electron/services/base/refusal.ts";
import { calendarHandlers } from "../../../../electron/services/calendar.ts";
import { chimeHandlers } from "../../../../electron/services/chimes.ts";
import { pairsHandlers } from "../../../../electron/services/pairs.ts";
import { phaseHandlers } from "../../../../electron/services/phases.ts";
import { planHandlers } from "../../../../electron/services/plans.ts";
import { practiceHandlers, programHandlers } from "../../../../electron/services/program.ts";
import { groupHandlers, studentHandlers } from "../../../../electron/services/roster.ts";
import { appHandlers } from "../../../../electron/services/settings.ts";
import { teamsHandlers } from "../../../../electron/services/teams.ts";
import { transferHandlers } from "../../../../electron/services/transfer/transfer.ts";
import type { Change } from "../../../../shared/api/app.ts";
import { noRules } from "../../../../shared/plan/earning.ts";
import type { GroupCounts } from "../../../../shared/record/group-counts.ts";
import { manualClock } from "../../../support/manual-clock.ts";
import { monday, temporaryFolder, temporaryStore } from "../store/temporary-folder.ts";

export const caller: CallContext = { clientId: "test", signal: new AbortController().signal };

/** The services of this folder's tests over a real store and a clock that stands still. */
export function openServices(options: { wallMs?: number; offsetMinutes?: number } = {}) {
  const clock = manualClock({
    wallMs: options.wallMs ?? monday,
    offsetMinutes: options.offsetMinutes ?? 0,
  });
  const store = temporaryStore(temporaryFolder(), clock.wallMs);
  const changes = changeFeed("epoch");
  const about = { version: "1.2.3", host: "loopback", speed: 1 } as const;
  return {
    clock,
    store,
    changes,
    app: appHandlers(store, changes, clock, about),
    groups: groupHandlers(store, changes, clock),
    students: studentHandlers(store, changes, clock),
    plans: planHandlers(store, changes, clock),
    phases: phaseHandlers(store, changes, clock),
    alternations: alternationHandlers(store, changes, clock),
    analysis: analysisHandlers(store, clock),
    chimes: chimeHandlers(store, changes, clock),
    calendar: calendarHandlers(store, changes, clock),
    program: programHandlers(store, changes, clock),
    advice: adviceHandlers(store, changes, clock),
    practice: practiceHandlers(store, changes),
    transfer: transferHandlers(store, changes, clock),
    teams: teamsHandlers(store, changes, clock),
    pairs: pairsHandlers(store, changes, clock),
  };
}
export type Services = ReturnType<typeof openServices>;

export async function makeGroup(services: Services, names: string[] = []) {
  const group = await services.groups.create({ name: "Room 4", target: "Eyes on my work" }, caller);
  // Not brought in, so that a test of imports begins without one.
  const added = services.store.students.add(group.id, names, services.clock.wallMs());
  return { group, students: added };
}

/** Lets the plans of a group earn a point a mark. */
export function letEarn({ store }: Services, groupId: string): void {
  const earning = { kind: "own", rules: { ...noRules, mark: 1 } } as const;
  for (const { id, name, settings } of store.plans.list(groupId)) {
    store.plans.update({ id, name, settings: { ...settings, earning } });
  }
}

/** A group's counts with what the page puts beside them; archived students are among them. */
export async function wholeCounts(services: Services, groupId: string): Promise<GroupCounts> {
  const { analysis, calendar, phases, store } = services;
  const group = store.groups.get(groupId);
  if (group === null) throw new Error("No such group");
  const { today } = await calendar.timetable(undefined, caller);
  return {
    ...(await analysis.counts({ groupId }, caller)),
    group,
    students: store.students.listAll(groupId),
    phases: await phases.list({ groupId }, caller),
    daysOff: await calendar.daysOff(undefined, caller),
    today,
  };
}

/** The topics of what was published while `work` ran. */
export async function topicsOf({ changes }: Services, work: () => unknown): Promise<string[]> {
  const before = await nextChange(changes.subscribe(null, caller.signal));
  await work();
  const { topics } = await nextChange(changes.subscribe(before, caller.signal));
  return topics;
}

export async function nextChange(stream: AsyncIterable<Change>): Promise<Change> {
  for await (const change of stream) return change;
  throw new Error("The stream ended");
}

/** The refusal that `work` ends in. */
export async function refusalOf(work: () => unknown): Promise<Refusal> {
  try {
    await work();
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
  throw new Error("Nothing was refused");
}

/** A well-formed id that nothing has. */
export const nobody = "01900000-0000-7000-8000-000000000000";
