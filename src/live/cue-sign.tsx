import { useLayoutEffect, useState } from "react";
import { useSay } from "../text/text.tsx";
import type { CueSignState } from "./use-cue-sign.ts";
import "./cue-sign.css";

/**
 * Our own drawing: a pebble at rest. A cue draws two rings around it, and from one cue to the next the
 * rings change places, so that no cue looks like the one before it; a pause sets two bars beneath it, the
 * end one line.
 */
export function CueSign({ sign }: { sign: CueSignState }) {
  const { cue, isAsking, isSecond, isAgain, status } = sign;
  const rings = [
    "cue-rings",
    isAsking ? "cue-rings-on" : "",
    isAgain ? "cue-rings-again" : "",
    isSecond ? "cue-rings-second" : "",
  ].join(" ");
  return (
    <svg className="cue-sign" viewBox="0 0 240 216" aria-hidden="true">
      {/* Drawn anew for each cue, so that each fades in by itself. */}
      <g key={cue} className={rings}>
        <ellipse className="cue-ring cue-ring-far" cx="120" cy="104" rx="112" ry="90" />
        <ellipse className="cue-ring" cx="120" cy="104" rx="90" ry="68" />
      </g>
      <path
        className="cue-stone"
        d="M62 112c-4-30 22-54 58-55 38-1 64 20 61 50-2 25-30 40-62 40-33 0-54-13-57-35z"
      />
      <path className="cue-vein" d="M84 88c20-14 52-16 74-3" />
      {status === "paused" ? <path className="cue-rest" d="M106 172v34M134 172v34" /> : null}
      {status === "ended" ? <path className="cue-rest" d="M70 190h100" /> : null}
    </svg>
  );
}

/**
 * The words beside the sign. Each cue, pause and end changes them once and is read out once; that the sign
 * of a cue has gone is not read out.
 *
 * @param asks the words of a cue
 * @param quiet the words between cues
 * @param ended the words of the end
 * @param isSpoken false where another sign on the same page is read out
 */
export function CueWords(props: {
  sign: CueSignState;
  asks: string;
  quiet: string;
  ended?: string | undefined;
  className?: string;
  isSpoken?: boolean;
}) {
  const say = useSay();
  const { sign, asks, quiet, ended, className = "", isSpoken = true } = props;
  const { status, isAsking, isWordless } = sign;
  const isBack = useIsBack(sign);
  const isQuiet = status === "running" && !isAsking;
  const said = isAsking
    ? isWordless
      ? ""
      : asks
    : status === "paused"
      ? say("board.paused")
      : status === "ended"
        ? (ended ?? say("board.ended"))
        : isBack
          ? quiet
          : "";
  return (
    <div className={`cue-words ${isAsking ? "cue-words-ask" : ""} ${className}`}>
      <p aria-live={isSpoken ? "polite" : undefined}>{said}</p>
      {isQuiet && !isBack ? <p>{quiet}</p> : null}
    </div>
  );
}

/** Whether work goes on after a pause and no cue has come since: that is worth saying. */
function useIsBack({ status, isAsking }: CueSignState): boolean {
  const [isBack, setBack] = useState(false);
  const [wasPaused, setWasPaused] = useState(false);
  useLayoutEffect(() => {
    if (status === "paused") setWasPaused(true);
    if (status === "running" && wasPaused) {
      setWasPaused(false);
      setBack(true);
    }
    if (status !== "running" || isAsking) setBack(false);
  }, [status, isAsking, wasPaused]);
  return isBack;
}

/** The sign of a cue with its words on one line, for screens that hold something else beside it. */
export function CueBand(props: {
  sign: CueSignState;
  asks: string;
  quiet: string;
  ended?: string | undefined;
}) {
  const { sign, ...words } = props;
  return (
    <div className={`cue-band ${sign.isAsking ? "cue-band-asks" : ""}`}>
      <CueSign sign={sign} />
      <CueWords sign={sign} {...words} />
    </div>
  );
}
