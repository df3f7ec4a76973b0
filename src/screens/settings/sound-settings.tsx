import { useState } from "react";
import type { PlanChime } from "../../../shared/plan/plan.ts";
import { useSaveSettings, useSettings } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Range, Switch } from "../../parts/field.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Problem } from "../../parts/problem.tsx";
import { ChimeChoice } from "../../sound/chimes/chime-choice.tsx";
import { OwnChimes } from "../../sound/chimes/own-chimes.tsx";
import type { SoundFailure } from "../../sound/decide-start.ts";
import { preview } from "../../sound/preview.ts";
import { useFormats, useSay } from "../../text/text.tsx";

/** What new plans sound like, chimes of one's own, and whether the timetable's reminder is heard. */
export function SoundSettings() {
  const say = useSay();
  const formats = useFormats();
  const settings = useSettings();
  const [failure, setFailure] = useState<SoundFailure | null>(null);
  const save = useSaveSettings();
  if (settings === undefined) return null;
  const { chime, volume, reminderSound } = settings;
  const hear = async (sound: PlanChime) => setFailure(await preview(sound, volume));
  const choose = (sound: PlanChime) => {
    save.mutate({ chime: sound });
    void hear(sound);
  };
  return (
    <div className="settings-days">
      <p>{say("settings.soundHelp")}</p>
      <ChimeChoice label={say("plan.chime")} value={chime} onChange={choose} />
      <div className="settings-volume">
        <Range
          label={say("plan.volume")}
          value={volume}
          least={0.05}
          worded={formats.percent(volume)}
          onChange={(next) => save.mutate({ volume: next })}
        />
        <Button onPress={() => void hear(chime)}>{say("plan.hear")}</Button>
      </div>
      {failure === null ? null : (
        <Notice kind="caution" title={say("plan.notHeard")}>
          {say(`soundFailure.${failure}`)}
        </Notice>
      )}
      <p className="field-help">{say("plan.volumeCaution")}</p>
      <OwnChimes onAdded={choose} />
      <Switch
        label={say("settings.reminderSound")}
        value={reminderSound}
        onChange={(wanted) => save.mutate({ reminderSound: wanted })}
      />
      <Problem error={save.error} />
    </div>
  );
}
