import type { Group } from "../../shared/roster/roster.ts";
import { useTell } from "../api/queries.ts";
import { Button } from "../parts/button.tsx";
import { Dialog } from "../parts/dialog.tsx";
import { Problem } from "../parts/problem.tsx";
import { useSay } from "../text/text.tsx";

const goes = ["Students", "Marks", "Home", "Group"] as const;

/** Says all that goes with a group before it goes, and what went afterwards. */
export function EraseGroup({ group, onClose }: { group: Group; onClose: () => void }) {
  const say = useSay();
  const erase = useTell((api, id: string) => api.groups.erase({ id }));
  return (
    <Dialog
      title={say("archive.eraseNamed", { group: group.name })}
      isOpen
      isAlert
      onClose={onClose}
      actions={
        erase.data === undefined ? (
          <>
            <Button onPress={onClose}>{say("act.cancel")}</Button>
            <Button
              look="danger"
              isDisabled={erase.isPending}
              onPress={() => erase.mutate(group.id)}
            >
              {say("archive.eraseNow")}
            </Button>
          </>
        ) : (
          <Button look="main" onPress={onClose}>
            {say("act.close")}
          </Button>
        )
      }
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
      <Problem error={erase.error} />
    </Dialog>
  );
}
