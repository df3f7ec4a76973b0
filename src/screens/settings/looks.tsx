import { languages, type Settings, themes } from "../../../shared/api/app.ts";
import { regionPaper } from "../../../shared/api/region-paper.ts";
import { Choices } from "../../parts/field.tsx";
import { useSay } from "../../text/text.tsx";

interface LooksProps {
  settings: Settings;
  onChange: (part: Partial<Settings>) => void;
}

/** Language, theme, paper and keys. */
export function Looks({ settings, onChange }: LooksProps) {
  const say = useSay();
  return (
    <div className="settings-choices">
      <Choices
        label={say("settings.language")}
        inRow
        value={settings.language}
        choices={languages.map((value) => ({
          value,
          label: say(`settings.language.${value}`),
          lang: value,
        }))}
        onChange={(language) => onChange({ language })}
      />
      <Choices
        label={say("settings.theme")}
        inRow
        value={settings.theme}
        choices={themes.map((value) => ({ value, label: say(`settings.theme.${value}`) }))}
        onChange={(theme) => onChange({ theme })}
      />
      <Choices
        label={say("settings.paper")}
        inRow
        value={settings.paper}
        choices={[
          {
            value: "region",
            label: say("settings.paperRegion", { paper: regionPaper(navigator.language) }),
          },
          { value: "A4", label: "A4" },
          { value: "Letter", label: "Letter" },
        ]}
        onChange={(paper) => onChange({ paper })}
      />
      <Choices
        label={say("settings.singleKeys")}
        help={say("settings.singleKeysHelp")}
        inRow
        value={settings.singleKeys ? "on" : "off"}
        choices={[
          { value: "on", label: say("settings.singleKeys.on") },
          { value: "off", label: say("settings.singleKeys.off") },
        ]}
        onChange={(chosen) => onChange({ singleKeys: chosen === "on" })}
      />
    </div>
  );
}
