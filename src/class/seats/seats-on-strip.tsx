import { printedCode } from "../../../shared/seats/code.ts";
import { useSettings, useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { LiveProblem } from "../../parts/live-problem/live-problem.tsx";
import { useSay } from "../../text/text.tsx";
import { useSeats } from "./use-seats.ts";
import "./seats-on-strip.css";

interface SeatsOnStripProps {
  groupId: string;
  /** Whether nobody else looks at this window, so that it may be said which seat sleeps. */
  isPrivate: boolean;
  /** Whether the plan has students record there, so that closed seats are a gap. */
  isWanted: boolean;
  /** Whether points can be given, so that the code for the adult's phone is of use. */
  earns: boolean;
}

/**
 * How many seats have joined a running session, and which of them sleep. Nothing while seats are closed,
 * unless the session's answers were to come from them.
 */
export function SeatsOnStrip(props: SeatsOnStripProps) {
  return useSettings()?.seats === true || props.isWanted ? <StandingOfSeats {...props} /> : null;
}

function StandingOfSeats({ groupId, isPrivate, isWanted, earns }: SeatsOnStripProps) {
  const say = useSay();
  const seats = useSeats(groupId);
  const open = useTell((api) => api.seats.open());
  // Seats that closed by themselves in the middle of a session are missed in any plan.
  const isGap = isPrivate && (isWanted || seats?.closedBecause === "sleep");
  const joined = seats?.seats.filter((seat) => seat.joined) ?? [];
  const asleep = joined.filter((seat) => seat.asleep).map(({ number }) => number);
  return (
    <>
      {/* Its place is kept when there is nothing to say: what stands below it is being pressed. */}
      <div className="seats-on-strip" role={isPrivate ? "status" : undefined}>
        {seats === undefined ? null : seats.isOpen ? (
          <span>{say("seat.strip", { joined: joined.length })}</span>
        ) : isGap ? (
          <>
            <strong>{say(`seat.closed.${seats.closedBecause ?? "never"}`)}</strong>
            <Button isDisabled={open.isPending} onPress={() => open.mutate(undefined)}>
              {say("seat.open")}
            </Button>
          </>
        ) : null}
        {isPrivate && earns && seats?.isOpen && seats.pocketCode !== null ? (
          <span>{say("seat.strip.pocket", { code: printedCode(seats.pocketCode) })}</span>
        ) : null}
        {isPrivate && seats?.isOpen && asleep.length > 0 ? (
          <strong>
            {say("seat.strip.asleep", { numbers: asleep.join(", "), count: asleep.length })}
          </strong>
        ) : null}
        {isPrivate && seats?.isOpen && seats.joiningPaused ? (
          <strong>{say("seat.strip.paused")}</strong>
        ) : null}
      </div>
      <LiveProblem error={open.error} />
    </>
  );
}
