import type { SeenValue } from "../../../shared/session/event.ts";
import { SteadyButton } from "../../parts/steady/steady-button.tsx";
import { useSay } from "../../text/text.tsx";
import type { AnswerKeys } from "./use-check-keys.ts";

interface CheckRowProps {
  name: string;
  /** What the row asks about: a row of another check takes no press that was meant for this one. */
  about: string;
  /** The cue of a check that is answered late; null for the present moment. */
  lateCue?: number | null;
  keys?: AnswerKeys | undefined;
  /** What was said, while it is confirmed; null while it is asked. */
  noted?: SeenValue | null;
  /** Whether names may stand here beside what was said. */
  isPrivate: boolean;
  /** Where nothing was to be compared, not to have seen anybody says nothing. */
  canBeUnseen?: boolean;
  onSay: (value: SeenValue) => void;
  onUndo?: () => void;
}

/**
 * The question about one student, answered with one press, then its confirmation with an undo, which lies
 * where no answer is.
 */
export function CheckRow(props: CheckRowProps) {
  const say = useSay();
  const { name, about, lateCue = null, keys, noted = null, isPrivate } = props;
  const { canBeUnseen = true, onSay, onUndo } = props;
  const hint = (key: string | undefined) => (key === undefined ? null : <kbd>{key}</kbd>);
  const question =
    lateCue === null ? say("spot.ask", { name }) : say("spot.askLate", { name, cue: lateCue });
  const isAsked = noted === null;
  const showsName = isAsked || isPrivate;
  const answers = (["on", "off", "unseen"] as const).filter(
    (value) => value !== "unseen" || canBeUnseen,
  );
  return (
    <div
      className="spot-row"
      role="group"
      aria-label={showsName ? question : say("spot.label")}
      tabIndex={-1}
    >
      <span className="spot-name">{showsName ? question : ""}</span>
      {answers.map((value) => (
        <SteadyButton
          key={value}
          look={value === "unseen" ? "quiet" : "plain"}
          className={isAsked ? "" : "is-gone"}
          isDisabled={!isAsked}
          shown={`${about} ${isAsked}`}
          onPress={() => onSay(value)}
        >
          {say(`spot.${value}`)}{" "}
          {hint(value === "unseen" ? keys?.unseen.toUpperCase() : keys?.[value])}
        </SteadyButton>
      ))}
      <span className="spot-said">
        {noted === null ? null : (
          <>
            {isPrivate ? say("spot.noted", { value: noted }) : say("spot.notedShared")}
            <SteadyButton look="quiet" shown={about} onPress={() => onUndo?.()}>
              {say("act.undo")}
            </SteadyButton>
          </>
        )}
      </span>
    </div>
  );
}
