import { useCare } from "../api/queries.ts";
import { useFormats, useSay } from "../text/text.tsx";

/** When the last good backup was taken, as one line. */
export function LastBackup() {
  const say = useSay();
  const formats = useFormats();
  const care = useCare();
  if (care === undefined) return null;
  const { last } = care.backup;
  if (last === null) return <p>{say("care.noBackup")}</p>;
  const time = formats.time(last.wallMs, last.offsetMinutes);
  return <p>{say("care.lastBackup", { day: formats.fullDay(last.day), time })}</p>;
}
