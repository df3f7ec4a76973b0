import { useSay } from "../../text/text.tsx";
import { Button } from "../button.tsx";
import { Notice } from "../notice.tsx";

interface SavedElsewhereProps {
  /** Puts what is kept in the place of what was typed here. */
  onTake: () => void;
  /** Goes on with what was typed here; only saving puts it in the place of what is kept. */
  onKeep: () => void;
}

/** Says that another window saved the same thing while this form was being filled in. */
export function SavedElsewhere({ onTake, onKeep }: SavedElsewhereProps) {
  const say = useSay();
  return (
    <Notice kind="caution" title={say("elsewhere.title")}>
      <p>{say("elsewhere.help")}</p>
      <Button onPress={onTake}>{say("elsewhere.take")}</Button>{" "}
      <Button onPress={onKeep}>{say("elsewhere.keep")}</Button>
    </Notice>
  );
}
