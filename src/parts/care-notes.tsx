import { useCare } from "../api/queries.ts";
import { useSay } from "../text/text.tsx";
import { LastBackup } from "./last-backup.tsx";
import { Notice } from "./notice.tsx";

/** When the last good backup was taken, and what is wrong with the data, with what to do about it. */
export function CareNotes() {
  const say = useSay();
  const care = useCare();
  if (care === undefined) return null;
  const { problem } = care.backup;
  return (
    <>
      <LastBackup />
      {problem === null ? null : (
        <Notice kind="caution" title={say("care.backupFailed")}>
          <p>{say(`care.backupFailed.${problem}`)}</p>
        </Notice>
      )}
    </>
  );
}
