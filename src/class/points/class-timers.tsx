import { useEffect, useState } from "react";
import type { TimerLeft } from "../../../shared/api/points.ts";
import { useAppInfo } from "../../api/queries.ts";
import { useSay } from "../../text/text.tsx";
import { usePointsBoard } from "./use-points-board.ts";
import "./class-timers.css";

/** How often what is left is looked at, in ms; minutes are shown, so nothing ticks. */
const lookMs = 1_000;

/** The privileges that are being had, each with its minutes: no names, no sound, and nothing that moves. */
export function ClassTimers() {
  const say = useSay();
  const { board, askedMs } = usePointsBoard();
  const timers = board?.timers ?? [];
  if (timers.length === 0) return null;
  return (
    <ul className="class-timers" aria-label={say("purse.timers")}>
      {timers.map((timer) => (
        <Timer key={timer.id} timer={timer} askedMs={askedMs} />
      ))}
    </ul>
  );
}

function Timer({ timer, askedMs }: { timer: TimerLeft; askedMs: number }) {
  const say = useSay();
  const leftMs = useLeft(timer.leftMs, askedMs);
  const minutes = Math.ceil(leftMs / 60_000);
  return (
    <li className="class-timer">
      <span className="class-timer-name">{timer.name}</span>
      <span className="class-timer-band" aria-hidden="true">
        <span style={{ inlineSize: `${Math.round((100 * minutes) / timer.minutes)}%` }} />
      </span>
      <span role="timer" className="class-timer-left">
        {leftMs <= 0 ? say("purse.timeUp") : say("purse.minutesLeft", { minutes })}
      </span>
    </li>
  );
}

/** What is left now of what was left when it was asked, in ms. */
function useLeft(leftMs: number, askedMs: number): number {
  const speed = useAppInfo()?.speed ?? 1;
  const [nowMs, setNow] = useState(() => Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), lookMs);
    return () => clearInterval(timer);
  }, []);
  return Math.max(0, leftMs - Math.max(0, nowMs - askedMs) * speed);
}
