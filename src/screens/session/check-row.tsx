import type { SeenValue } from "../../../shared/session/event.ts";
import { Button } from "../../parts/button.tsx";
import { useSay } from "../../text/text.tsx";
import type { AnswerKeys } from "./use-check-keys.ts";

/** The question about one student, answered with one press. */
export function CheckRow(props: {
  name: string;
  keys?: AnswerKeys | undefined;
  onSay: (value: SeenValue) => void;
}) {
  const say = useSay();
  const { name, keys, onSay } = props;
  const hint = (key: string | undefined) => (key === undefined ? null : <kbd>{key}</kbd>);
  return (
    <div className="spot-row" role="group" aria-label={say("spot.ask", { name })}>
      <span className="spot-name">{say("spot.ask", { name })}</span>
      <Button onPress={() => onSay("on")}>
        {say("spot.on")} {hint(keys?.on)}
      </Button>
      <Button onPress={() => onSay("off")}>
        {say("spot.off")} {hint(keys?.off)}
      </Button>
      <Button look="quiet" onPress={() => onSay("unseen")}>
        {say("spot.unseen")} {hint(keys?.unseen.toUpperCase())}
      </Button>
    </div>
  );
}
