import { useCare } from "../api/queries.ts";
import { useSay } from "../text/text.tsx";
import { Notice } from "./notice.tsx";

/** Says that nothing can be saved in this run of the app, and why; nothing when all is well. */
export function ReadingOnly() {
  const say = useSay();
  const because = useCare()?.readingOnly ?? null;
  if (because === null) return null;
  return (
    <Notice kind="caution" title={say("care.readingOnly")}>
      <p>{say(`care.readingOnly.${because}`)}</p>
    </Notice>
  );
}
