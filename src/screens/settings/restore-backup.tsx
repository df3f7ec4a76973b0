import { useEffect, useRef, useState } from "react";
import { useSearchParams } from "react-router";
import type { KeptBackup } from "../../../shared/api/care.ts";
import { useBackups, useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Pick } from "../../parts/field.tsx";
import { More } from "../../parts/more.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Problem } from "../../parts/problem.tsx";
import { type Say, useFormats, useSay } from "../../text/text.tsx";
import { BringBackup } from "./bring-backup.tsx";

type Formats = ReturnType<typeof useFormats>;

/** Which backup to go back to, and what that would lose, before anything is done. */
export function RestoreBackup() {
  const say = useSay();
  const formats = useFormats();
  const kept = useBackups();
  const ask = useTell((api, name: string | null) => api.care.restoreNext({ name }));
  const [asked] = useSearchParams();
  // A backup that was opened from outside is the one to look at.
  const opened = asked.get("restore");
  const [chosenName, setChosenName] = useState<string | null>(opened);
  const place = useRef<HTMLDivElement>(null);
  const isShown = kept.data !== undefined;
  useEffect(() => {
    if (opened !== null && isShown) place.current?.scrollIntoView({ block: "center" });
  }, [opened, isShown]);
  if (kept.data === undefined) return <Problem error={kept.error} />;
  const { backups, next } = kept.data;
  const coming = backups.find(({ name }) => name === next);
  const chosen = backups.find(({ name }) => name === chosenName) ?? backups[0];
  if (coming !== undefined) {
    return (
      <Notice title={say("restore.title")}>
        <p>{say("restore.asked", when(coming, formats))}</p>
        <Button isDisabled={ask.isPending} onPress={() => ask.mutate(null)}>
          {say("restore.takeBack")}
        </Button>
        <Problem error={ask.error} />
      </Notice>
    );
  }
  if (chosen === undefined) return <BringBackup onBrought={setChosenName} />;
  return (
    <div className="settings-damaged" ref={place}>
      <Pick
        label={say("restore.choose")}
        value={chosen.name}
        onChange={setChosenName}
        choices={backups.map((backup) => ({
          value: backup.name,
          label: titleOf(say, backup, formats),
        }))}
      />
      <p>{lostWords(say, chosen)}</p>
      <p>{say("restore.kept")}</p>
      <Button
        isDisabled={chosen.lost === null || ask.isPending}
        onPress={() => ask.mutate(chosen.name)}
      >
        {say("restore.ask")}
      </Button>
      <Problem error={ask.error} />
      <More label={say("restore.bring")}>
        <BringBackup onBrought={setChosenName} />
      </More>
    </div>
  );
}

function when({ taken }: KeptBackup, formats: Formats) {
  const { day, wallMs, offsetMinutes } = taken;
  return { day: formats.fullDay(day), time: formats.time(wallMs, offsetMinutes) };
}

const titles = {
  daily: "restore.day",
  "before-migration": "restore.beforeUpdate",
  brought: "restore.brought",
} as const;

function titleOf(say: Say, backup: KeptBackup, formats: Formats): string {
  const values = when(backup, formats);
  if (backup.lost === null) return say("restore.damaged", values);
  return say(titles[backup.kind], values);
}

function lostWords(say: Say, { lost }: KeptBackup): string {
  if (lost === null) return say("restore.cannot");
  const isNothing = lost.sessions + lost.students + lost.entries === 0;
  return isNothing ? say("restore.lostNothing") : say("restore.lost", { ...lost });
}
