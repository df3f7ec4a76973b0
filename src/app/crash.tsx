import { useRouteError } from "react-router";
import { Button } from "../parts/button.tsx";
import { useSay } from "../text/text.tsx";

/**
 * Stands in for a screen that threw. The session runs on the desktop side, so a broken page costs nothing
 * but its own view: opening it again catches up from the store.
 */
export function Crash() {
  const say = useSay();
  const error = useRouteError();
  return (
    <div className="crash" role="alert">
      <h1>{say("crash.title")}</h1>
      <p>{say("crash.body")}</p>
      <Button look="main" onPress={() => window.location.reload()}>
        {say("crash.again")}
      </Button>
      <details>
        <summary>{say("crash.detail")}</summary>
        <pre>{error instanceof Error ? error.message : String(error)}</pre>
      </details>
    </div>
  );
}
