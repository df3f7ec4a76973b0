import type { DrawnCriterion } from "../../shared/reading/criterion-lines.ts";
import { Switch } from "../parts/field.tsx";
import { useVoice } from "../words/use-voice.ts";
import { type Voice, wordPhase } from "../words/words.ts";
import type { Overlays } from "./session-figure.tsx";

interface OverlaySwitchesProps {
  overlays: Overlays;
  onChange: (overlays: Overlays) => void;
  /** Without any there is no switch for them. */
  criterion: readonly DrawnCriterion[];
}

/** What is laid over the points, and what the criterion lines say once they are. */
export function OverlaySwitches({ overlays, onChange, criterion }: OverlaySwitchesProps) {
  const voice = useVoice();
  const { say } = voice;
  const names = (["level", "trend", "interval", "criterion"] as const).filter(
    (name) => name !== "criterion" || criterion.length > 0,
  );
  return (
    <>
      <div className="progress-overlays">
        {names.map((name) => (
          <Switch
            key={name}
            label={say(`graph.overlay.${name}`)}
            value={overlays[name]}
            onChange={(value) => onChange({ ...overlays, [name]: value })}
          />
        ))}
      </div>
      {overlays.criterion
        ? criterion.map((pair) => (
            <p key={pair.points[0]?.day ?? 0} className="progress-facts">
              {wordCriterion(voice, pair)}
            </p>
          ))
        : null}
    </>
  );
}

/** Decisions as the catalogue names them; its choices take no hyphens. */
const decisions = {
  "change-shown": "shown",
  "no-change-shown": "notShown",
  "too-few-points": "few",
} as const;

function wordCriterion(voice: Voice, pair: DrawnCriterion): string {
  return voice.say("trend.criterion", {
    from: wordPhase(voice, pair.from),
    to: wordPhase(voice, pair.to),
    above: pair.above,
    sessions: pair.sessions,
    needed: pair.needed ?? 0,
    decision: decisions[pair.decision],
  });
}
