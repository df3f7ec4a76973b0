import { useState } from "react";
import type { Group } from "../../../shared/roster/roster.ts";
import { useGroups } from "../../api/queries.ts";
import { EraseGroup } from "../../class/archive/erase-group.tsx";
import { SaveGroup } from "../../class/archive/save-group.tsx";
import { useKept } from "../../class/archive/use-kept.ts";
import { Button } from "../../parts/button.tsx";
import { useFormats, useSay } from "../../text/text.tsx";
import { WaitingItem } from "./waiting-item.tsx";

/** Archived groups whose day has come: their records can be saved and the group erased, never by itself. */
export function KeptGroups() {
  const say = useSay();
  const formats = useFormats();
  const kept = useKept();
  const archived = useGroups(true).data ?? [];
  const [erasing, setErasing] = useState<Group | null>(null);
  return (
    <>
      {archived.map((group) => {
        const day = kept.get(group.id);
        if (day?.hasCome !== true) return null;
        const values = { group: group.name, day: formats.fullDay(day.until) };
        const words = say("archive.come", values);
        return (
          <WaitingItem key={group.id} what={`kept ${group.id} ${day.until}`} named={words}>
            <span>{words}</span>
            <span className="today-row">
              <Button
                look="danger"
                onPress={() => setErasing(group)}
                aria-label={say("archive.eraseNamed", values)}
              >
                {say("archive.erase")}
              </Button>
              {/* Last, so that what it says afterwards moves nothing. */}
              <SaveGroup group={group} />
            </span>
          </WaitingItem>
        );
      })}
      {erasing === null ? null : <EraseGroup group={erasing} onClose={() => setErasing(null)} />}
    </>
  );
}
