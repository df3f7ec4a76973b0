import type { DamagedSession } from "../../../shared/api/care.ts";
import { useAppInfo, useCare, useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { LastBackup } from "../../parts/last-backup.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Problem } from "../../parts/problem.tsx";
import { ReadingOnly } from "../../parts/reading-only.tsx";
import { useFormats, useSay } from "../../text/text.tsx";
import { damageValues, wordDamage } from "../../words/damage-words.ts";
import { useVoice } from "../../words/use-voice.ts";

/** What is wrong with the data, with what to do about it; nothing when all is well. */
export function CareNotices() {
  const say = useSay();
  const care = useCare();
  if (care === undefined) return null;
  const { problem } = care.backup;
  return (
    <>
      <ReadingOnly />
      {care.restored === null ? null : (
        <Notice>
          <p>{say(care.restored.done ? "restore.done" : "restore.failed")}</p>
        </Notice>
      )}
      <DamagedSessions sessions={care.damaged} />
      {problem === null ? null : (
        <Notice kind="caution" title={say("care.backupFailed")}>
          <p>{say(`care.backupFailed.${problem}`)}</p>
        </Notice>
      )}
      {care.openToOthers ? (
        <Notice kind="caution" title={say("care.openToOthers")}>
          <p>{say("care.openToOthers.help")}</p>
        </Notice>
      ) : null}
    </>
  );
}

/** The backups: when the last good one was taken, what is counted without damaged entries, how to restore. */
export function BackupNotes() {
  const passedOver = useCare()?.passedOver ?? [];
  return (
    <>
      <LastBackup />
      <PassedOver sessions={passedOver} />
      <RestoreHow />
    </>
  );
}

/** Sessions of which something cannot be read, with the way out. */
function DamagedSessions({ sessions }: { sessions: readonly DamagedSession[] }) {
  const voice = useVoice();
  const { say } = voice;
  const passOver = useTell((api, sessionId: string) => api.care.passOver({ sessionId }));
  if (sessions.length === 0) return <Problem error={passOver.error} />;
  return (
    <Notice kind="caution" title={say("care.damaged")}>
      {sessions.map((session) => {
        const { sessionId, entries } = session;
        const said = <p key={sessionId}>{wordDamage(voice, session)}</p>;
        if (entries === 0) return said;
        const values = damageValues(voice, session);
        return (
          <div key={sessionId} className="settings-damaged">
            {said}
            <Button
              isDisabled={passOver.isPending}
              onPress={() => passOver.mutate(sessionId)}
              aria-label={say("care.damaged.passOverNamed", values)}
            >
              {say("care.damaged.passOver", values)}
            </Button>
          </div>
        );
      })}
      <p>{say("care.damaged.help")}</p>
      <Problem error={passOver.error} />
    </Notice>
  );
}

function PassedOver({ sessions }: { sessions: readonly DamagedSession[] }) {
  const say = useSay();
  const formats = useFormats();
  if (sessions.length === 0) return null;
  return (
    <ul>
      {sessions.map(({ sessionId, groupName: group, day, entries }) => (
        <li key={sessionId}>
          {say("care.passedOver", { group, day: formats.fullDay(day), entries })}
        </li>
      ))}
    </ul>
  );
}

/** The command that puts a backup back, on the host that has no window of its own to ask in: nothing may be open on the folder then, this page included. */
function RestoreHow() {
  const say = useSay();
  const info = useAppInfo();
  if (info?.host !== "loopback") return null;
  return (
    <div className="settings-damaged">
      <p>{say("care.restoreHow")}</p>
      <p className="settings-path">
        <code>{`npm run -s cli -- restore --data "${info.dataFolder}"`}</code>
      </p>
    </div>
  );
}
