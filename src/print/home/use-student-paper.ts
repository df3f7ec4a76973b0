import { useParams } from "react-router";
import { useAsk, useGroups, useStudents } from "../../api/queries.ts";

/** The student of a print page's address with what was agreed; undefined until known, or where there is none. */
export function useStudentPaper() {
  const { groupId = "", studentId = "" } = useParams();
  const groups = useGroups();
  const students = useStudents(groupId);
  const agreed = useAsk("home", ["agreed-of", studentId], (api) => api.agreed.of({ studentId }));
  const group = groups.data?.find(({ id }) => id === groupId);
  const student = students.data?.find(({ id }) => id === studentId);
  const error = groups.error ?? students.error ?? agreed.error;
  const known =
    group === undefined || student === undefined || agreed.data === undefined
      ? undefined
      : { group, student, agreed: agreed.data };
  const isMissing =
    groups.data !== undefined && students.data !== undefined && student === undefined;
  return { known, error, isMissing };
}
