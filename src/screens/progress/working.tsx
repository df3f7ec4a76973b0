import { useVoice } from "./use-voice.ts";

/** Says that the numbers are being worked out; the page stays usable meanwhile. */
export function Working({ isDone }: { isDone: boolean }) {
  const { say } = useVoice();
  return (
    <p role="status" className="progress-facts">
      {isDone ? "" : say("progress.working")}
    </p>
  );
}
