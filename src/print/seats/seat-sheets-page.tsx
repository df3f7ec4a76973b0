import type { ReactNode } from "react";
import { Link, useParams } from "react-router";
import { useGroups } from "../../api/queries.ts";
import { usePointsShown } from "../../class/points/use-points.ts";
import { useSeats } from "../../class/seats/use-seats.ts";
import { useSay } from "../../text/text.tsx";
import { PrintGap } from "../print-gap.tsx";
import { PrintPage } from "../print-page.tsx";
import { Sheet } from "../sheet.tsx";
import "./seat-sheets.css";

const steps = ["1", "2", "3"] as const;
const rungs = ["1", "2", "3", "4", "5"] as const;
const forTechnician = [
  "port",
  "isolation",
  "router",
  "firewall",
  "certificate",
  "lock",
  "browser",
  "safe",
] as const;

/** What to print about seats: for the teacher, for the technician, and for a room without devices. */
export function SeatSheetsPage() {
  const say = useSay();
  const { groupId = "" } = useParams();
  const groups = useGroups();
  const group = groups.data?.find(({ id }) => id === groupId);
  const seats = useSeats(groupId);
  const points = usePointsShown(groupId) ? "yes" : "no";
  if (group === undefined || seats === undefined) {
    return <PrintGap error={groups.error} isMissing={groups.data !== undefined} />;
  }
  const address = seats.addresses[0] ?? "";
  const port = /:(\d+)$/.exec(address)?.[1] ?? "";
  const title = say("seatSheet.title");
  return (
    <PrintPage
      title={title}
      back={<Link to={`/groups/${group.id}/seats`}>{say("seat.title")}</Link>}
      fileName={title}
      lead={say("seatSheet.lead")}
    >
      <SeatSheet number={1} title={say("seatSheet.teacher")} lead={say("seatSheet.teacher.lead")}>
        <ol>
          {steps.map((step) => (
            <li key={step}>
              <strong>{say(`seatSheet.teacher.${step}`)}</strong>
              <p>{say(`seatSheet.teacher.${step}.how`)}</p>
            </li>
          ))}
        </ol>
        <h2>{say("seatSheet.before")}</h2>
        <ul>
          {(["lock", "ear", "family", "knows"] as const).map((each) => (
            <li key={each}>{say(`seatSheet.before.${each}`, { points })}</li>
          ))}
        </ul>
      </SeatSheet>
      <SeatSheet number={2} title={say("seatSheet.tech")} lead={say("seatSheet.tech.lead")}>
        <dl>
          {forTechnician.map((each) => (
            <div key={each}>
              <dt>{say(`seatSheet.tech.${each}`)}</dt>
              <dd>{unbroken(say(`seatSheet.tech.${each}.how`, { port, points }))}</dd>
            </div>
          ))}
        </dl>
        {address === "" ? null : <p>{say("seatSheet.tech.address", { address })}</p>}
      </SeatSheet>
      <SeatSheet number={3} title={say("seatSheet.ladder")} lead={say("seatSheet.ladder.lead")}>
        <ol>
          {rungs.map((rung) => (
            <li key={rung}>{say(`seatSheet.ladder.${rung}`)}</li>
          ))}
        </ol>
      </SeatSheet>
    </PrintPage>
  );
}

/** What is typed at the start of the program, such as `--seats-port NUMBER`, stays on one line. */
const optionPattern = /(--[a-z-]+ \p{Lu}+)/u;

function unbroken(text: string): ReactNode[] {
  return text.split(optionPattern).map((part) =>
    part.startsWith("--") ? (
      <span key={part} className="seat-sheet-option">
        {part}
      </span>
    ) : (
      part
    ),
  );
}

interface SeatSheetProps {
  number: number;
  title: string;
  lead: string;
  children: ReactNode;
}

function SeatSheet({ number, title, lead, children }: SeatSheetProps) {
  return (
    <Sheet number={number} count={3} kind="text">
      <article className="seat-sheet">
        <h1>{title}</h1>
        <p className="seat-sheet-lead">{lead}</p>
        {children}
      </article>
    </Sheet>
  );
}
