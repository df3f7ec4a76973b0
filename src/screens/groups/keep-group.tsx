import { useState } from "react";
import type { Group } from "../../../shared/roster/roster.ts";
import { useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Dialog } from "../../parts/dialog.tsx";
import { DayField } from "../../parts/moment-field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

interface KeepGroupProps {
  group: Group;
  /** The day named before, or null. */
  until: string | null;
  onClose: () => void;
}

/** Names the day until which an archived group is kept, or none. */
export function KeepGroup({ group, until, onClose }: KeepGroupProps) {
  const say = useSay();
  const [day, setDay] = useState(until ?? "");
  const keep = useTell((api, named: string | null) =>
    api.groups.keepUntil({ id: group.id, day: named }),
  );
  const save = (named: string | null) => keep.mutate(named, { onSuccess: onClose });
  return (
    <Dialog
      title={say("archive.keepNamed", { group: group.name })}
      isOpen
      onClose={onClose}
      actions={
        <>
          <Button onPress={onClose}>{say("act.cancel")}</Button>
          {until === null ? null : (
            <Button isDisabled={keep.isPending} onPress={() => save(null)}>
              {say("archive.keepNone")}
            </Button>
          )}
          <Button look="main" isDisabled={day === "" || keep.isPending} onPress={() => save(day)}>
            {say("archive.keepNow")}
          </Button>
        </>
      }
    >
      <DayField
        label={say("archive.keepDay")}
        value={day}
        onChange={setDay}
        help={say("archive.keepHelp")}
      />
      <Problem error={keep.error} />
    </Dialog>
  );
}
