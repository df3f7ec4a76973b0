import { useAppInfo, useSaveSettings, useSettings } from "../../api/queries.ts";
import { Switch } from "../../parts/field.tsx";
import { Columns, Page, Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { releasesAddress } from "../../parts/releases.ts";
import { useSay } from "../../text/text.tsx";
import { BackupNotes, CareNotices } from "./care-notes.tsx";
import { ClassCode } from "./class-code.tsx";
import { CopyElsewhere } from "./copy-elsewhere.tsx";
import { DaysOff } from "./days-off.tsx";
import { Looks } from "./looks.tsx";
import { NewVersion } from "./new-version.tsx";
import { RestoreBackup } from "./restore-backup.tsx";
import { SampleClass } from "./sample-class.tsx";
import { SoundSettings } from "./sound-settings.tsx";
import { Terms } from "./terms.tsx";
import { WorryContact } from "./worry-contact.tsx";
import "./settings.css";

/** Language, looks and paper, and where the records are kept. */
export function SettingsScreen() {
  const say = useSay();
  const settings = useSettings();
  const info = useAppInfo();
  const save = useSaveSettings();
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
            <Looks settings={settings} onChange={save.mutate} />
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
              <p>{say("seat.caution.knows", { points: settings.points ? "yes" : "no" })}</p>
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
              <SampleClass isThere={info.hasSample} />
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
