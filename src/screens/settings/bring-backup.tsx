import { useState } from "react";
import { ApiError } from "../../api/api-error.ts";
import { useAppInfo, useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { TextField } from "../../parts/field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

/** Takes a copy from a stick or another disk among the backups, so that it can be looked at first. */
export function BringBackup({ onBrought }: { onBrought: (name: string) => void }) {
  const say = useSay();
  const info = useAppInfo();
  const [path, setPath] = useState("");
  const bring = useTell((api, from: string) => api.care.bring({ path: from }));
  const isMissing = bring.error instanceof ApiError && bring.error.failure.kind === "missing";
  return (
    <form
      className="settings-damaged"
      onSubmit={(event) => {
        event.preventDefault();
        bring.mutate(path.trim(), { onSuccess: ({ name }) => onBrought(name) });
      }}
    >
      <p>{say("restore.bringHelp", { host: info?.host ?? "loopback" })}</p>
      <TextField
        label={say("restore.file")}
        value={path}
        onChange={setPath}
        maxLength={1_000}
        problem={isMissing ? say("restore.noFile") : undefined}
      />
      <Button type="submit" isDisabled={path.trim() === "" || bring.isPending}>
        {say("restore.look")}
      </Button>
      <Problem error={isMissing ? null : bring.error} />
    </form>
  );
}
