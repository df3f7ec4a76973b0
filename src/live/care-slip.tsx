import { Link } from "react-router";
import type { Care } from "../../shared/api/care.ts";
import { useCare } from "../api/queries.ts";
import type { MessageId } from "../text/catalogue.ts";
import { useSay } from "../text/text.tsx";

/** A slip in the spine when something is wrong with the data; there it moves nothing when it comes. */
export function CareSlip() {
  const say = useSay();
  const care = useCare();
  const problem = care === undefined ? null : worst(care);
  return (
    <div className="frame-care" role="status">
      {problem === null ? null : <Link to="/settings">{say(problem)}</Link>}
    </div>
  );
}

/** What to say first of what is wrong, or null when all is well. */
function worst({ readingOnly, damaged, backup, openToOthers }: Care): MessageId | null {
  if (readingOnly !== null) return "care.readingOnly";
  if (damaged.length > 0) return "care.damaged";
  if (backup.problem !== null) return "care.backupFailed";
  return openToOthers ? "care.openToOthers" : null;
}
