import { useState } from "react";
import { cueingWays, type PlanChime } from "../../../../shared/plan/plan.ts";
import { Button } from "../../../parts/button.tsx";
import { Choices, Range } from "../../../parts/field.tsx";
import { Notice } from "../../../parts/notice.tsx";
import { Section } from "../../../parts/page.tsx";
import { ChimeChoice } from "../../../sound/chimes/chime-choice.tsx";
import { OwnChimes } from "../../../sound/chimes/own-chimes.tsx";
import type { SoundFailure } from "../../../sound/decide-start.ts";
import { preview } from "../../../sound/preview.ts";
import { useFormats, useSay } from "../../../text/text.tsx";
import { FieldPlace } from "./field-place.tsx";
import type { PlanFieldsProps } from "./plan-fields.ts";

/** What the cue is, and how loud. */
export function SoundFields({ settings, onChange, problemAt }: PlanFieldsProps) {
  const say = useSay();
  const formats = useFormats();
  const [failure, setFailure] = useState<SoundFailure | null>(null);
  const hear = async (chime: PlanChime) => setFailure(await preview(chime, settings.volume));
  return (
    <Section title={say("plan.sound")}>
      <Choices
        label={say("plan.cueing")}
        value={settings.cueing}
        choices={cueingWays.map((way) => ({
          value: way,
          label: say(`plan.cueing.${way}`),
          help: say(`plan.cueing.${way}.help`),
        }))}
        onChange={(cueing) =>
          onChange(cueing === "own" ? { cueing, recording: "seat" } : { cueing })
        }
      />
      {settings.cueing === "silent" || settings.cueing === "own" ? null : (
        <>
          <ChimeChoice
            label={say("plan.chime")}
            value={settings.chime}
            onChange={(chime) => {
              onChange({ chime });
              hear(chime);
            }}
          />
          <div className="plan-volume">
            <FieldPlace field="volume">
              <Range
                label={say("plan.volume")}
                value={settings.volume}
                worded={formats.percent(settings.volume)}
                problem={problemAt("volume")}
                onChange={(volume) => onChange({ volume })}
              />
            </FieldPlace>
            <Button onPress={() => hear(settings.chime)}>{say("plan.hear")}</Button>
          </div>
          {failure === null ? null : (
            <Notice kind="caution" title={say("plan.notHeard")}>
              {say(`soundFailure.${failure}`)}
            </Notice>
          )}
          <p className="plan-caution">{say("plan.volumeCaution")}</p>
          <OwnChimes
            onAdded={(chime) => {
              onChange({ chime });
              hear(chime);
            }}
          />
        </>
      )}
    </Section>
  );
}
