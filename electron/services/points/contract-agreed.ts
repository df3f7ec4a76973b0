import { standsFor } from "../../../shared/home/agreed.ts";
import { takesPoints } from "../../../shared/plan/earning.ts";
import type { Store } from "../../store/store.ts";
import { earnsPoints } from "./earns-points.ts";

/** Whether points are kept at all for this student's group, and agreed for this student. */
export function isPaid(store: Store, studentId: string): boolean {
  const groupId = store.students.get(studentId)?.groupId;
  if (groupId === undefined || !earnsPoints(store, groupId)) return false;
  return standsFor(store.agreed.page(studentId).said, "points")?.answer !== "no";
}

/** Whether a plan in use lets points be taken back at all, and nobody said no to it for this student. */
export function isTaken(store: Store, studentId: string): boolean {
  const groupId = store.students.get(studentId)?.groupId;
  if (groupId === undefined || !isPaid(store, studentId)) return false;
  const takes = store.plans.list(groupId).some(({ settings }) => takesPoints(settings.earning));
  return takes && standsFor(store.agreed.page(studentId).said, "taken")?.answer !== "no";
}
