import { useState } from "react";
import { ApiError } from "../../api/api-error.ts";
import { useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { TextField } from "../../parts/field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

/** A copy of everything on a stick or another disk, where and when the teacher says. */
export function CopyElsewhere() {
  const say = useSay();
  const [folder, setFolder] = useState("");
  const copy = useTell((api, to: string) => api.care.copyTo({ folder: to }));
  const isMissing = copy.error instanceof ApiError && copy.error.failure.kind === "missing";
  return (
    <form
      className="settings-damaged"
      onSubmit={(event) => {
        event.preventDefault();
        copy.mutate(folder.trim());
      }}
    >
      <p>{say("copy.help")}</p>
      <TextField
        label={say("copy.folder")}
        value={folder}
        onChange={setFolder}
        maxLength={1_000}
        problem={isMissing ? say("copy.noFolder") : undefined}
      />
      <ChooseFolder onChosen={setFolder} />
      <Button type="submit" isDisabled={folder.trim() === "" || copy.isPending}>
        {say("copy.now")}
      </Button>
      <p role="status" className="settings-copied">
        {copy.data === undefined ? "" : say("copy.done", { path: copy.data.path })}
      </p>
      <Problem error={isMissing ? null : copy.error} />
    </form>
  );
}

/** The system's own dialog for folders, where the page lives in the desktop app. */
function ChooseFolder({ onChosen }: { onChosen: (folder: string) => void }) {
  const say = useSay();
  const bridge = window.pebblechime;
  if (bridge === undefined) return null;
  const choose = async () => {
    const outcome = await bridge.chooseFolder();
    if (outcome.kind === "chosen") onChosen(outcome.folder);
  };
  return <Button onPress={() => void choose()}>{say("copy.choose")}</Button>;
}
