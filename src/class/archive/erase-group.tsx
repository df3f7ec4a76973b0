import type { Group } from "../../../shared/roster/roster.ts";
import { useTell } from "../../api/queries.ts";
import { forgetForms } from "../../parts/sheet/use-kept-form.ts";
import { useSay } from "../../text/text.tsx";
import { allStudents } from "../../transfer/whole-group.ts";
import { EraseDialog } from "./erase-dialog.tsx";

const goes = ["Students", "Marks", "Home", "Group"] as const;

/** Says all that goes with a group before it goes, and what went afterwards. */
export function EraseGroup({ group, onClose }: { group: Group; onClose: () => void }) {
  const say = useSay();
  const erase = useTell(async (api, id: string) => {
    const members = await allStudents(api, id);
    const gone = await api.groups.erase({ id });
    for (const student of members) forgetForms(student.id);
    return gone;
  });
  return (
    <EraseDialog
      title={say("archive.eraseNamed", { group: group.name })}
      label={say("archive.eraseNow")}
      isErased={erase.data !== undefined}
      isPending={erase.isPending}
      error={erase.error}
      onErase={() => erase.mutate(group.id)}
      onClose={onClose}
    >
      {erase.data === undefined ? (
        <>
          <p>{say("archive.eraseHelp")}</p>
          <ul>
            {goes.map((what) => (
              <li key={what}>{say(`archive.goes${what}`)}</li>
            ))}
          </ul>
          <p>{say("archive.stays")}</p>
        </>
      ) : (
        <p>{say("archive.erased", erase.data)}</p>
      )}
    </EraseDialog>
  );
}
