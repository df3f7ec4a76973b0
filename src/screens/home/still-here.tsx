import { Button } from "../../parts/button.tsx";
import { useSay } from "../../text/text.tsx";

/** Says that a form goes on from what was being written before the page was loaded again or left. */
export function StillHere({ onBegin }: { onBegin: () => void }) {
  const say = useSay();
  return (
    <p role="status" className="home-said">
      {say("agreed.stillHere")}{" "}
      <Button look="quiet" onPress={onBegin}>
        {say("agreed.beginAgain")}
      </Button>
    </p>
  );
}
