import type { Imported, RosterRow } from "../../../shared/api/transfer.ts";
import { nameKey } from "../../../shared/roster/name-key.ts";
import type { Store } from "../../store/store.ts";
import { refuseCrowd, refuseRows } from "./import-refusals.ts";

/**
 * Adds the students of a roster to a group, all or none, as one import that can be taken back.
 *
 * @throws Refusal that names, by their place from 1, the rows whose name somebody has already
 */
export function importStudents(
  store: Store,
  groupId: string,
  rows: readonly RosterRow[],
  nowMs: number,
): Omit<Imported, "importedMs"> {
  const taken = new Set(store.students.listAll(groupId).map(({ name }) => nameKey(name)));
  const repeated: number[] = [];
  rows.forEach(({ name }, index) => {
    const key = nameKey(name.trim());
    if (taken.has(key)) repeated.push(index + 1);
    taken.add(key);
  });
  refuseRows("import-names-taken", repeated, "have a name that a student has already");
  refuseCrowd(taken.size);
  return store.transaction(() => {
    const importId = store.imports.create(groupId, nowMs);
    const names = rows.map(({ name }) => name.trim());
    store.students.add(groupId, names, nowMs, importId).forEach(({ id }, index) => {
      const { picture = null, target = "" } = rows[index] ?? {};
      store.students.update(id, { picture, target });
    });
    return { importId, sessions: 0, studentsAdded: rows.length, phasesAdded: 0 };
  });
}
