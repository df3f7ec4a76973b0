import type { Group } from "../../../shared/roster/roster.ts";
import { useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";
import { saveWholeGroup } from "../../transfer/whole-group.ts";

/** One press that saves all that is kept of a group as a file. */
export function SaveGroup({ group }: { group: Group }) {
  const say = useSay();
  const save = useTell((api, wanted: Group) => saveWholeGroup(api, wanted));
  return (
    <>
      <Button
        isDisabled={save.isPending}
        onPress={() => save.mutate(group)}
        aria-label={say("archive.saveNamed", { group: group.name })}
      >
        {say("archive.save")}
      </Button>
      <span role="status">
        {save.data === undefined ? null : say("archive.saved", { name: save.data })}
      </span>
      <Problem error={save.error} />
    </>
  );
}
