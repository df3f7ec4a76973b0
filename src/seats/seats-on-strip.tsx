import { useSettings } from "../api/queries.ts";
import { useSay } from "../text/text.tsx";
import { useSeats } from "./use-seats.ts";
import "./seats-on-strip.css";

interface SeatsOnStripProps {
  groupId: string;
  /** Whether nobody else looks at this window, so that it may be said which seat sleeps. */
  isPrivate: boolean;
}

/** How many seats have joined a running session, and which of them sleep. Nothing while seats are closed. */
export function SeatsOnStrip(props: SeatsOnStripProps) {
  return useSettings()?.seats === true ? <OpenSeats {...props} /> : null;
}

function OpenSeats({ groupId, isPrivate }: SeatsOnStripProps) {
  const say = useSay();
  const seats = useSeats(groupId);
  if (seats === undefined || !seats.isOpen) return null;
  const joined = seats.seats.filter((seat) => seat.joined);
  const asleep = joined.filter((seat) => seat.asleep).map(({ number }) => number);
  return (
    <p className="seats-on-strip" role={isPrivate ? "status" : undefined}>
      <span>{say("seat.strip", { joined: joined.length })}</span>
      {isPrivate && asleep.length > 0 ? (
        <strong>
          {say("seat.strip.asleep", { numbers: asleep.join(", "), count: asleep.length })}
        </strong>
      ) : null}
      {isPrivate && seats.joiningPaused ? <strong>{say("seat.paused")}</strong> : null}
    </p>
  );
}
