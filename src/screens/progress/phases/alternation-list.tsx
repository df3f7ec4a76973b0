import { useState } from "react";
import type { Alternation } from "../../../../shared/phase/alternation.ts";
import { useAlternations, useTell } from "../../../api/queries.ts";
import { Button } from "../../../parts/button.tsx";
import { Dialog } from "../../../parts/dialog.tsx";
import { Problem } from "../../../parts/problem.tsx";
import { useVoice } from "../../../words/use-voice.ts";

/** The pairs of conditions that take turns in a group, or did, and the press that takes one away. */
export function AlternationList({ groupId }: { groupId: string }) {
  const { say } = useVoice();
  const alternations = useAlternations(groupId);
  const [removing, setRemoving] = useState<Alternation | null>(null);
  const remove = useTell((api, id: string) => api.alternations.remove({ id }));
  const close = () => setRemoving(null);
  if (alternations.length === 0) return null;
  return (
    <>
      <ul className="alternations">
        {alternations.map((each) => (
          <li key={each.id}>
            {say("designs.alternationStands", {
              a: each.nameA,
              b: each.nameB,
              held: Math.max(0, ...each.sessions.map(({ place }) => place)),
              sessions: each.order.length,
              seed: each.seed,
              times: each.times,
            })}{" "}
            <Button
              look="quiet"
              onPress={() => setRemoving(each)}
              aria-label={say("designs.alternationRemove", { a: each.nameA, b: each.nameB })}
            >
              {say("act.remove")}
            </Button>
          </li>
        ))}
      </ul>
      <Problem error={remove.error} />
      <Dialog
        isAlert
        isOpen={removing !== null}
        onClose={close}
        title={say("designs.alternationRemoveTitle")}
        actions={
          <>
            <Button onPress={close}>{say("act.cancel")}</Button>
            <Button
              look="main"
              onPress={() => {
                if (removing !== null) remove.mutate(removing.id);
                close();
              }}
            >
              {say("act.remove")}
            </Button>
          </>
        }
      >
        <p>{say("designs.alternationRemoveHelp")}</p>
      </Dialog>
    </>
  );
}
