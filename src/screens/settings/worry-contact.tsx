import { useState } from "react";
import { useSaveSettings } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { TextField } from "../../parts/field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

/** Whom the school has named; shown wherever something worries an adult. */
export function WorryContact({ saved }: { saved: string }) {
  const say = useSay();
  const [text, setText] = useState(saved);
  const save = useSaveSettings();
  const isSame = text.trim() === saved;
  return (
    <form
      className="settings-worry"
      onSubmit={(event) => {
        event.preventDefault();
        if (!isSame) save.mutate({ worryContact: text.trim() });
      }}
    >
      <TextField
        label={say("worry.setting")}
        help={say("worry.settingHelp")}
        value={text}
        onChange={setText}
        maxLength={200}
      />
      <div>
        <Button type="submit" isDisabled={isSame || save.isPending}>
          {say("act.save")}
        </Button>
      </div>
      <Problem error={save.error} />
    </form>
  );
}
