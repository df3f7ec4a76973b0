import { Link } from "react-router";
import { Problem } from "../parts/problem.tsx";
import { useSay } from "../text/text.tsx";

/** In place of a print page: it is being asked for, could not be, or is there no more. */
export function PrintGap({ error, isMissing }: { error: unknown; isMissing: boolean }) {
  const say = useSay();
  return (
    <main id="page" className="page">
      <h1>{isMissing ? say("error.missing") : say("print.title")}</h1>
      <Problem error={error} />
      {isMissing || error !== null ? (
        <Link to="/">{say("app.goToday")}</Link>
      ) : (
        <p role="status">{say("wait")}</p>
      )}
    </main>
  );
}
