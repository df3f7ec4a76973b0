import { useEffect } from "react";
import { useConnection } from "../api/context.tsx";
import { useSay } from "../text/text.tsx";

/**
 * Stands in for the whole app where page and host do not belong together: an address typed into a fresh
 * tab, one that was used already, or another program in the host's place. Nothing more is sent.
 */
export function Barred() {
  const say = useSay();
  const { link } = useConnection();
  const reason = link.barredFor() ?? "uninvited";
  const title = say(`barred.${reason}`);
  useEffect(() => {
    document.title = `${title} · Pebblechime`;
  }, [title]);
  return (
    <main>
      <div className="crash" role="alert">
        <h1>{title}</h1>
        <p>{say(`barred.${reason}Why`)}</p>
        <p>{say("barred.how")}</p>
      </div>
    </main>
  );
}
