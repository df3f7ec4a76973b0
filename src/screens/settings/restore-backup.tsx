import { useState } from "react";
import type { KeptBackup } from "../../../shared/api/care.ts";
import { useBackups, useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Pick } from "../../parts/field.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Problem } from "../../parts/problem.tsx";
import { type Say, useFormats, useSay } from "../../text/text.tsx";

type Formats = ReturnType<typeof useFormats>;

/** Which backup to go back to, and what that would lose, before anything is done. */
export function RestoreBackup() {
  const say = useSay();
  const formats = useFormats();
  const kept = useBackups();
  const ask = useTell((api, name: string | null) => api.care.restoreNext({ name }));
  const [chosenName, setChosenName] = useState<string | null>(null);
  if (kept.data === undefined) return <Problem error={kept.error} />;
  const { backups, next } = kept.data;
  const asked = backups.find(({ name }) => name === next);
  const chosen = backups.find(({ name }) => name === chosenName) ?? backups[0];
  if (asked !== undefined) {
    return (
      <Notice title={say("restore.title")}>
        <p>{say("restore.asked", when(asked, formats))}</p>
        <Button isDisabled={ask.isPending} onPress={() => ask.mutate(null)}>
          {say("restore.takeBack")}
        </Button>
        <Problem error={ask.error} />
      </Notice>
    );
  }
  if (chosen === undefined) return <p>{say("restore.none")}</p>;
  return (
    <div className="settings-damaged">
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
    </div>
  );
}

function when({ taken }: KeptBackup, formats: Formats) {
  const { day, wallMs, offsetMinutes } = taken;
  return { day: formats.fullDay(day), time: formats.time(wallMs, offsetMinutes) };
}

function titleOf(say: Say, backup: KeptBackup, formats: Formats): string {
  const values = when(backup, formats);
  if (backup.lost === null) return say("restore.damaged", values);
  return say(backup.kind === "daily" ? "restore.day" : "restore.beforeUpdate", values);
}

function lostWords(say: Say, { lost }: KeptBackup): string {
  if (lost === null) return say("restore.cannot");
  const isNothing = lost.sessions + lost.students + lost.entries === 0;
  return isNothing ? say("restore.lostNothing") : say("restore.lost", { ...lost });
}
