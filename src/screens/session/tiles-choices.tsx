import { useState } from "react";
import { useConnection } from "../../api/context.tsx";
import { useSaveSettings, useSettings } from "../../api/queries.ts";
import { haveOwnPictures } from "../../class/pictures/own-pictures.ts";
import { openClassWindow } from "../../live/class-screen/own-window.ts";
import type { LiveSession } from "../../live/use-live-session.ts";
import { Button } from "../../parts/button.tsx";
import { Switch } from "../../parts/field.tsx";
import { Panel } from "../../parts/panel.tsx";
import { useSay } from "../../text/text.tsx";

/** What the adult chooses about the students' tiles; on the tiles themselves nothing can be chosen. */
export function TilesChoices({ live }: { live: LiveSession }) {
  const say = useSay();
  const { session, students, state } = live;
  const { api } = useConnection();
  const [isOpen, setOpen] = useState(false);
  const settings = useSettings();
  const save = useSaveSettings();
  if (settings === undefined) return null;
  const others = settings.picturesOnly.filter((id) => id !== session.groupId);
  return (
    <>
      {/* Names can stay off a screen that everybody sees once each student has a picture nobody else has. */}
      {haveOwnPictures(students) ? (
        <Switch
          label={say("tiles.picturesOnly")}
          value={settings.picturesOnly.includes(session.groupId)}
          onChange={(isOn) =>
            save.mutate({ picturesOnly: isOn ? [...others, session.groupId] : others })
          }
        />
      ) : null}
      <Panel label={say("tiles.oneAlone")} look="quiet" isOpen={isOpen} onOpenChange={setOpen}>
        {students
          .filter(({ id }) => !state.setAside.has(id))
          .map(({ id, name }) => (
            <Button
              key={id}
              onPress={() => {
                void openClassWindow(api, { name: "tiles", studentId: id });
                setOpen(false);
              }}
            >
              {name}
            </Button>
          ))}
      </Panel>
    </>
  );
}
