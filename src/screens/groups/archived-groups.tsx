import { useState } from "react";
import type { Group } from "../../../shared/roster/roster.ts";
import { useGroups, useTell } from "../../api/queries.ts";
import { EraseGroup } from "../../class/archive/erase-group.tsx";
import { SaveGroup } from "../../class/archive/save-group.tsx";
import { useKept } from "../../class/archive/use-kept.ts";
import { Button } from "../../parts/button.tsx";
import { Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useFormats, useSay } from "../../text/text.tsx";
import { KeepGroup } from "./keep-group.tsx";

interface Asked {
  readonly what: "keep" | "erase";
  readonly group: Group;
}

/** The archived groups: bring one back, save its records, keep it until a day, or erase it. */
export function ArchivedGroups() {
  const say = useSay();
  const formats = useFormats();
  const archived = useGroups(true).data ?? [];
  const kept = useKept();
  const restore = useTell((api, id: string) => api.groups.restore({ id }));
  const [asked, setAsked] = useState<Asked | null>(null);
  const close = () => setAsked(null);
  return (
    <>
      {archived.length === 0 ? null : (
        <Section title={say("groups.archived")}>
          <ul className="groups-list">
            {archived.map((group) => {
              const day = kept.get(group.id);
              const values = { group: group.name, day: day ? formats.fullDay(day.until) : "" };
              return (
                <li key={group.id} className="groups-archived">
                  <span className="groups-name">{group.name}</span>
                  {day === undefined ? null : (
                    <p className="groups-facts">
                      {say(day.hasCome ? "archive.come" : "archive.until", values)}
                    </p>
                  )}
                  <div className="groups-actions">
                    <Button
                      onPress={() => restore.mutate(group.id)}
                      aria-label={say("groups.restoreNamed", { name: group.name })}
                    >
                      {say("groups.restore")}
                    </Button>
                    <Button
                      onPress={() => setAsked({ what: "keep", group })}
                      aria-label={say("archive.keepNamed", values)}
                    >
                      {say("archive.keep")}
                    </Button>
                    <Button
                      look="danger"
                      onPress={() => setAsked({ what: "erase", group })}
                      aria-label={say("archive.eraseNamed", values)}
                    >
                      {say("archive.erase")}
                    </Button>
                    <SaveGroup group={group} />
                  </div>
                </li>
              );
            })}
          </ul>
          <Problem error={restore.error} />
        </Section>
      )}
      {asked?.what === "erase" ? <EraseGroup group={asked.group} onClose={close} /> : null}
      {asked?.what === "keep" ? (
        <KeepGroup
          group={asked.group}
          until={kept.get(asked.group.id)?.until ?? null}
          onClose={close}
        />
      ) : null}
    </>
  );
}
