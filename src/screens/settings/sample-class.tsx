import { useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

/** The invented class to try things with: added, or taken away again. */
export function SampleClass({ isThere }: { isThere: boolean }) {
  const say = useSay();
  const addSample = useTell((api) => api.app.addSample());
  const removeSample = useTell((api) => api.app.removeSample());
  return (
    <>
      <p>{say("sample.body")}</p>
      <div>
        {isThere ? (
          <Button
            isDisabled={removeSample.isPending}
            onPress={() => removeSample.mutate(undefined)}
          >
            {say("sample.remove")}
          </Button>
        ) : (
          <Button isDisabled={addSample.isPending} onPress={() => addSample.mutate(undefined)}>
            {say("welcome.addSample")}
          </Button>
        )}
      </div>
      <Problem error={addSample.error ?? removeSample.error} />
    </>
  );
}
