import type { CallContext, Handlers } from "../../electron/services/base/handlers.ts";
import type { Student } from "../../shared/roster/roster.ts";

/** Adds students to a group as the page does, one a name, and gives them in that order. */
export async function addStudents(
  { students, transfer }: Pick<Handlers, "students" | "transfer">,
  groupId: string,
  names: readonly string[],
  context: CallContext,
): Promise<Student[]> {
  const rows = names.map((name) => ({ name, picture: null, target: "" }));
  await transfer.importStudents({ groupId, rows }, context);
  const all = await students.list({ groupId, archived: false }, context);
  return all.slice(-names.length);
}
