import { useState } from "react";
import type { LiveSession } from "../../../live/use-live-session.ts";
import { Button } from "../../../parts/button.tsx";
import type { SoundFailure } from "../../../sound/decide-start.ts";
import { preview } from "../../../sound/preview.ts";
import { useSay } from "../../../text/text.tsx";

/**
 * Rings the present cue's chime once more, for a class that did not hear it. It is the same cue: nothing
 * new is counted.
 */
export function RepeatChime({ live }: { live: LiveSession }) {
  const say = useSay();
  const [failure, setFailure] = useState<SoundFailure | null>(null);
  const { plan } = live.session;
  if (plan.cueing !== "sound") return null;
  const isOpen = live.state.status === "running" && live.state.openCue !== null;
  return (
    <div>
      <Button
        isDisabled={!isOpen}
        onPress={async () => setFailure(await preview(plan.chime, plan.volume))}
      >
        {say("adult.repeat")}
      </Button>
      <span role="alert">{failure === null ? "" : say(`soundFailure.${failure}`)}</span>
    </div>
  );
}
