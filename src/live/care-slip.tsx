import { Link } from "react-router";
import { useCare } from "../api/queries.ts";
import { useSay } from "../text/text.tsx";

/** A slip in the spine when something is wrong with the data; there it moves nothing when it comes. */
export function CareSlip() {
  const say = useSay();
  const care = useCare();
  const failed = care !== undefined && care.backup.problem !== null;
  return (
    <div className="frame-care" role="status">
      {failed ? <Link to="/settings#data">{say("care.backupFailed")}</Link> : null}
    </div>
  );
}
