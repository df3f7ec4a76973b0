import { useSay } from "../../text/text.tsx";
import { WriteLine } from "../write-line.tsx";

/** A line for each who signs, with room for the day. */
export function Signatures() {
  const say = useSay();
  return (
    <div className="home-paper-sign">
      {(["signStudent", "signFamily", "signSchool"] as const).map((who) => (
        <div key={who} className="home-paper-sign-row">
          <WriteLine label={say(`agreed.paper.${who}`)} />
          <WriteLine label={say("agreed.paper.day")} />
        </div>
      ))}
    </div>
  );
}
