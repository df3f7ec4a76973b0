import { openStore } from "../../../electron/store/store.ts";
import { firstPlan, type PlanSettings } from "../../../shared/plan/plan.ts";
import { pictureNames } from "../../../src/class/pictures/picture-names.ts";

/** Who is in a class of tests, and which of them has which id. */
export interface SilentClass {
  readonly groupId: string;
  readonly planId: string;
  readonly nameOf: ReadonlyMap<string, string>;
}

/** A group in a data folder, each with a picture of its own, whose cues come every forty seconds without sound. */
export function silentClass(
  path: string,
  names: readonly string[],
  own: { readonly plan?: Partial<PlanSettings>; readonly seatsInRow?: number } = {},
): SilentClass {
  const store = openStore({ folder: path, now: Date.now });
  try {
    const nowMs = Date.now() - 60_000;
    const group = store.groups.create({ name: "Room 12", target: "", isSample: false }, nowMs);
    const students = store.students.add(group.id, names, nowMs);
    students.forEach(({ id }, index) => {
      store.students.update(id, { picture: pictureNames[index] ?? null });
    });
    const each = { law: "fixed", meanSeconds: 40, cueing: "silent" } as const;
    const settings = { ...firstPlan, ...each, ...own.plan };
    const plan = store.plans.create({ groupId: group.id, name: "Every forty", settings }, nowMs);
    const { seatsInRow } = own;
    if (seatsInRow !== undefined) {
      store.settings.save({ seatsInRow: { [group.id]: seatsInRow } });
    }
    const nameOf = new Map(students.map(({ id, name }) => [id, name]));
    return { groupId: group.id, planId: plan.id, nameOf };
  } finally {
    store.close();
  }
}

/**
 * What the log of the newest session says of students' marks, in order. A cue's number is its place among
 * those that were shown: on a busy machine the first may come before any page is painted.
 */
export function marksLogged(path: string, { nameOf }: SilentClass): unknown[] {
  const store = openStore({ folder: path, now: Date.now });
  try {
    const [session] = store.sessions.list(null, 1);
    const events = store.log.read(session?.id ?? "", 0);
    const shown = events.flatMap(({ body }) => (body.kind === "delivered" ? [body.cue] : []));
    return events.flatMap(({ body }) => {
      if (body.kind !== "mark") return [];
      const place = shown.indexOf(body.cue) + 1;
      return [[body.value, nameOf.get(body.studentId), place, body.late ? "late" : "in time"]];
    });
  } finally {
    store.close();
  }
}

/** What the log of the newest session says of own cues that were shown, and by what, in order. */
export function deliveredLogged(
  path: string,
): { readonly studentId: string; readonly by: string }[] {
  const store = openStore({ folder: path, now: Date.now });
  try {
    const [session] = store.sessions.list(null, 1);
    return store.log
      .read(session?.id ?? "", 0)
      .flatMap(({ body }) =>
        body.kind === "delivered" && body.studentId !== undefined
          ? [{ studentId: body.studentId, by: body.by }]
          : [],
      );
  } finally {
    store.close();
  }
}
