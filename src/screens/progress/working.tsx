import { useSyncExternalStore } from "react";
import { Label, ProgressBar } from "react-aria-components";
import { progressNow, watchProgress } from "../../reading/analysis-line.ts";
import { useVoice } from "../../words/use-voice.ts";

/** Says that the numbers are being worked out, and of a long job how far it is; the page stays usable. */
export function Working({ isDone }: { isDone: boolean }) {
  const { say } = useVoice();
  const progress = useSyncExternalStore(watchProgress, progressNow);
  return (
    <>
      <p role="status" className="progress-facts">
        {isDone ? "" : say("progress.working")}
      </p>
      {isDone || progress === null ? null : (
        <ProgressBar
          className="progress-job"
          value={progress.done}
          maxValue={progress.total}
          valueLabel={say("progress.workingOf", { ...progress })}
        >
          {({ percentage = 0, valueText }) => (
            <>
              <Label className="only-for-readers">{say("progress.working")}</Label>
              <span className="progress-job-track">
                <span className="progress-job-done" style={{ inlineSize: `${percentage}%` }} />
              </span>
              <span className="progress-facts">{valueText}</span>
            </>
          )}
        </ProgressBar>
      )}
    </>
  );
}
