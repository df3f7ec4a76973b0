import { useState } from "react";
import type { Imported } from "../../../shared/api/transfer.ts";
import { useAsk, useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Dialog } from "../../parts/dialog.tsx";
import { Problem } from "../../parts/problem.tsx";
import { deviceDay, deviceOffset } from "../../text/device-time.ts";
import { useFormats, useSay } from "../../text/text.tsx";

/** What was brought in before, each to be taken back as one. */
export function PastImports({ groupId }: { groupId: string }) {
  const say = useSay();
  const when = useWhen();
  const imports = useAsk("records", ["imports", groupId], (api) =>
    api.transfer.imports({ groupId }),
  );
  const [asked, setAsked] = useState<Imported | null>(null);
  const undo = useTell((api, importId: string) => api.transfer.undoImport({ importId }));
  const shown = imports.data ?? [];
  const close = () => setAsked(null);
  return (
    <div className="transfer-past">
      <p role="status" className="transfer-status">
        {undo.data === undefined
          ? null
          : say("transfer.undone", {
              sessions: undo.data.sessionsRemoved,
              students: undo.data.studentsRemoved,
              phases: undo.data.phasesRemoved,
            })}
      </p>
      {shown.length === 0 ? null : (
        <>
          <h3>{say("transfer.past")}</h3>
          <ul className="transfer-list">
            {shown.map((each) => (
              <li key={each.importId} className="transfer-item">
                <span>
                  {say("transfer.pastItem", {
                    when: when(each.importedMs),
                    sessions: each.sessions,
                    students: each.studentsAdded,
                    phases: each.phasesAdded,
                  })}
                </span>
                <Button
                  onPress={() => setAsked(each)}
                  aria-label={say("transfer.undoNamed", { when: when(each.importedMs) })}
                >
                  {say("act.undo")}
                </Button>
              </li>
            ))}
          </ul>
        </>
      )}
      <Problem error={undo.error} />
      <Dialog
        title={say("transfer.undoTitle")}
        isOpen={asked !== null}
        onClose={close}
        isAlert
        actions={
          <>
            <Button onPress={close}>{say("act.cancel")}</Button>
            <Button
              look="main"
              onPress={() => {
                if (asked !== null) undo.mutate(asked.importId);
                close();
              }}
            >
              {say("transfer.undoNow")}
            </Button>
          </>
        }
      >
        <p>
          {say("transfer.undoHelp", {
            sessions: asked?.sessions ?? 0,
            phases: asked?.phasesAdded ?? 0,
          })}
        </p>
      </Dialog>
    </div>
  );
}

/** Words a moment as this computer's clock showed it. */
function useWhen(): (wallMs: number) => string {
  const formats = useFormats();
  return (wallMs) => {
    return `${formats.day(deviceDay(wallMs))}, ${formats.time(wallMs, deviceOffset(wallMs))}`;
  };
}
