import { Link } from "react-router";
import type { Plan } from "../../shared/api/plans.ts";
import { useSay } from "../text/text.tsx";
import "./paper-links.css";

/** What can be printed for a plan. */
export function PaperLinks({ plan }: { plan: Pick<Plan, "id" | "groupId" | "name"> }) {
  const say = useSay();
  const { id, groupId, name } = plan;
  const links = [
    { to: `/print/cards/${groupId}/${id}`, short: "print.link.cards" },
    { to: `/print/cue-key/${id}`, short: "print.link.key" },
    { to: `/print/observation/${groupId}/${id}`, short: "print.link.observation" },
  ] as const;
  return (
    <span className="paper-links">
      {links.map(({ to, short }) => (
        <Link key={to} to={to} aria-label={say(`${short}Of`, { plan: name })}>
          {say(short)}
        </Link>
      ))}
    </span>
  );
}
