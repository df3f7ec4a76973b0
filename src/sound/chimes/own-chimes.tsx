import { useId, useState } from "react";
import type { OwnChime } from "../../../shared/plan/plan.ts";
import { ownChimeBounds } from "../../../shared/sound/own-chime.ts";
import { useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { More } from "../../parts/more.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";
import { preview } from "../preview.ts";
import { type ChimeFileProblem, readOwnChime } from "./read-own-chime.ts";
import { useOwnChimes } from "./use-own-chimes.ts";
import "./own-chimes.css";

/** How loud a chime of the list is heard; the plan's own volume is beside the choice. */
const heardAt = 0.5;

/** Chimes of the teacher's own: brought from a file, heard, removed. */
export function OwnChimes({ onAdded }: { onAdded: (chime: OwnChime) => void }) {
  const say = useSay();
  const inputId = useId();
  const helpId = useId();
  const own = useOwnChimes() ?? [];
  const [said, setSaid] = useState<ChimeFileProblem | "added" | "quieter" | null>(null);
  const [gone, setGone] = useState<{ name: string; plans: number } | null>(null);
  const add = useTell((api, input: { name: string; sound: string }) => api.chimes.add(input));
  const remove = useTell((api, id: string) => api.chimes.remove({ id }));
  const read = async (file: File) => {
    setGone(null);
    const chime = await readOwnChime(file);
    if (typeof chime === "string") return setSaid(chime);
    const name = chime.name === "" ? say("ownChime.unnamed") : chime.name;
    add.mutate(
      { name, sound: chime.sound },
      {
        onSuccess: ({ id }) => {
          setSaid(chime.isQuieter ? "quieter" : "added");
          onAdded(`own:${id}`);
        },
        onError: () => setSaid(null),
      },
    );
  };
  return (
    <More label={say("ownChime.title")}>
      <div className="own-chime-file">
        <label htmlFor={inputId} className="field-label">
          {say("ownChime.file")}
        </label>
        <input
          id={inputId}
          type="file"
          aria-describedby={helpId}
          accept=".wav,.mp3,.ogg,.oga,audio/wav,audio/mpeg,audio/ogg"
          disabled={add.isPending}
          onChange={(event) => {
            const [file] = event.target.files ?? [];
            // The same file chosen again is to be read again.
            event.target.value = "";
            if (file !== undefined) void read(file);
          }}
        />
        <span id={helpId} className="field-help">
          {say("ownChime.help", { seconds: ownChimeBounds.mostSeconds })}
        </span>
      </div>
      <div role="status">
        {said === null ? null : (
          <Notice kind={said === "added" || said === "quieter" ? "note" : "caution"}>
            {say(`ownChime.${said}`, { seconds: ownChimeBounds.mostSeconds })}
          </Notice>
        )}
        {gone === null ? null : <Notice>{say("ownChime.gone", gone)}</Notice>}
      </div>
      <Problem error={add.error ?? remove.error} />
      <ul className="own-chime-list">
        {own.map(({ id, name }) => (
          <li key={id}>
            <span className="own-chime-name">{name}</span>
            <Button
              aria-label={say("ownChime.hearNamed", { name })}
              onPress={() => void preview(`own:${id}`, heardAt)}
            >
              {say("ownChime.hear")}
            </Button>
            <Button
              look="danger"
              isDisabled={remove.isPending}
              aria-label={say("ownChime.removeNamed", { name })}
              onPress={() =>
                remove.mutate(id, {
                  onSuccess: ({ plansChanged }) => {
                    setSaid(null);
                    setGone({ name, plans: plansChanged });
                  },
                })
              }
            >
              {say("act.remove")}
            </Button>
          </li>
        ))}
      </ul>
    </More>
  );
}
