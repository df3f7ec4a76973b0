import { useId } from "react";
import { Input, Label, Text, TextField } from "react-aria-components";
import { longestSubject } from "../../../../shared/plan/plan.ts";
import { usePlans, useSessions } from "../../../api/queries.ts";
import { useSay } from "../../../text/text.tsx";

/** So many sessions back, a subject is still suggested. */
const remembered = 100;

interface SubjectFieldProps {
  groupId: string;
  subject: string;
  onChange: (subject: string) => void;
}

/** What is worked on, in free words; those the group has used before are suggested. */
export function SubjectField({ groupId, subject, onChange }: SubjectFieldProps) {
  const say = useSay();
  const listId = useId();
  const used = useUsedSubjects(groupId);
  return (
    <TextField
      value={subject}
      onChange={onChange}
      maxLength={longestSubject}
      className="field"
      autoComplete="off"
    >
      <Label className="field-label">{say("plan.subject")}</Label>
      <Input className="field-input" list={listId} />
      <datalist id={listId}>
        {used.map((each) => (
          <option key={each} value={each} />
        ))}
      </datalist>
      <Text slot="description" className="field-help">
        {say("plan.subjectHelp")}
      </Text>
    </TextField>
  );
}

/** The subjects of a group's plans and latest sessions, each once, in the order of the alphabet. */
function useUsedSubjects(groupId: string): string[] {
  const plans = usePlans(groupId).data ?? [];
  const sessions = useSessions(groupId, remembered).data ?? [];
  const subjects = [
    ...plans.map(({ settings }) => settings.subject),
    ...sessions.map(({ plan }) => plan.subject),
  ];
  return [...new Set(subjects.filter((each) => each !== ""))].sort((a, b) => a.localeCompare(b));
}
