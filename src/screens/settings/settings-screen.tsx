import { languages, type Settings, themes } from "../../../shared/api/app.ts";
import { regionPaper } from "../../../shared/api/region-paper.ts";
import { useAppInfo, useSettings, useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Choices, Switch } from "../../parts/field.tsx";
import { Columns, Page, Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { releasesAddress } from "../../parts/releases.ts";
import { useSay } from "../../text/text.tsx";
import { BackupNotes, CareNotices } from "./care-notes.tsx";
import { ClassCode } from "./class-code.tsx";
import { CopyElsewhere } from "./copy-elsewhere.tsx";
import { DaysOff } from "./days-off.tsx";
import { NewVersion } from "./new-version.tsx";
import { RestoreBackup } from "./restore-backup.tsx";
import { SoundSettings } from "./sound-settings.tsx";
import { Terms } from "./terms.tsx";
import { WorryContact } from "./worry-contact.tsx";
import "./settings.css";

/** Language, looks and paper, and where the records are kept. */
export function SettingsScreen() {
  const say = useSay();
  const settings = useSettings();
  const info = useAppInfo();
  const save = useTell((api, part: Partial<Settings>) => api.app.saveSettings(part));
  const addSample = useTell((api) => api.app.addSample());
  const removeSample = useTell((api) => api.app.removeSample());
  if (settings === undefined || info === undefined) {
    return <Page title={say("nav.settings")}>{say("wait")}</Page>;
  }
  return (
    <Page title={say("nav.settings")}>
      <CareNotices />
      <Problem error={save.error} />
      <Columns
        left={
          <>
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
                onChange={(language) => save.mutate({ language })}
              />
              <Choices
                label={say("settings.theme")}
                inRow
                value={settings.theme}
                choices={themes.map((value) => ({ value, label: say(`settings.theme.${value}`) }))}
                onChange={(theme) => save.mutate({ theme })}
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
                onChange={(paper) => save.mutate({ paper })}
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
                onChange={(chosen) => save.mutate({ singleKeys: chosen === "on" })}
              />
            </div>
            <Section title={say("classScreen.settingsTitle")}>
              <ClassCode />
            </Section>
            <Section title={say("worry.open")}>
              <WorryContact saved={settings.worryContact} />
            </Section>
            <Section title={say("settings.sound")}>
              <SoundSettings />
            </Section>
            <Section title={say("terms.title")}>
              <Terms />
            </Section>
            <Section title={say("daysOff.title")}>
              <DaysOff />
            </Section>
          </>
        }
        right={
          <>
            <Section title={say("settings.points")}>
              <p>{say("settings.points.help")}</p>
              <Switch
                label={say("settings.points.use")}
                value={settings.points}
                onChange={(points) => save.mutate({ points })}
              />
            </Section>
            <Section title={say("seat.settings")}>
              <p>{say("seat.settings.help")}</p>
              <Switch
                label={say("seat.settings.use")}
                value={settings.seats}
                onChange={(seats) => save.mutate({ seats })}
              />
              <p>
                {say("seat.caution.policy")} {say("seat.caution.light")} {say("seat.caution.ear")}
              </p>
              <p>{say("seat.caution.knows")}</p>
            </Section>
            <Section title={say("settings.data")}>
              <p>{say("settings.dataHelp")}</p>
              <p>{say("settings.dataCopied")}</p>
              <p className="settings-path">{info.dataFolder}</p>
              <BackupNotes />
            </Section>
            <Section title={say("copy.title")}>
              <CopyElsewhere />
            </Section>
            <Section title={say("restore.title")}>
              <RestoreBackup />
            </Section>
            <Section title={say("settings.sample")}>
              <p>{say("sample.body")}</p>
              <div>
                {info.hasSample ? (
                  <Button
                    isDisabled={removeSample.isPending}
                    onPress={() => removeSample.mutate(undefined)}
                  >
                    {say("sample.remove")}
                  </Button>
                ) : (
                  <Button
                    isDisabled={addSample.isPending}
                    onPress={() => addSample.mutate(undefined)}
                  >
                    {say("welcome.addSample")}
                  </Button>
                )}
              </div>
              <Problem error={addSample.error ?? removeSample.error} />
            </Section>
            <Section title={say("settings.about")}>
              <p>{say("settings.version", { version: info.version })}</p>
              <NewVersion address={releasesAddress} />
              <p>{say("settings.cautions")}</p>
            </Section>
          </>
        }
      />
    </Page>
  );
}
