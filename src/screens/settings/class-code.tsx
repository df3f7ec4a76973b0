import { useState } from "react";
import { useAsk, useTell } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { TextField } from "../../parts/field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

const isCode = (text: string) => /^\d{4,8}$/.test(text);

/** The code that keeps the class screen's way out for the adult. It can be replaced here, and never read. */
export function ClassCode() {
  const say = useSay();
  const [typed, setTyped] = useState("");
  const state = useAsk("settings", ["class-screen-code"], (api) => api.classScreen.code()).data;
  const set = useTell((api, code: string | null) => api.classScreen.setCode({ code }));
  if (state === undefined) return null;
  return (
    <>
      <p>{say("classScreen.settingsHelp")}</p>
      <p role="status">{say(state.hasCode ? "classScreen.hasCode" : "classScreen.hasNoCode")}</p>
      <form
        className="settings-code"
        onSubmit={(event) => {
          event.preventDefault();
          if (isCode(typed)) set.mutate(typed, { onSuccess: () => setTyped("") });
        }}
      >
        <TextField
          label={say("classScreen.codeField")}
          value={typed}
          onChange={setTyped}
          maxLength={8}
          inputMode="numeric"
          type="password"
          autoComplete="off"
        />
        <Button type="submit" isDisabled={!isCode(typed) || set.isPending}>
          {say(state.hasCode ? "classScreen.codeChange" : "classScreen.codeSet")}
        </Button>
        {state.hasCode ? (
          <Button look="quiet" onPress={() => set.mutate(null)}>
            {say("classScreen.codeRemove")}
          </Button>
        ) : null}
      </form>
      {state.hasCode ? <p>{say("classScreen.settingsForgotten")}</p> : null}
      <Problem error={set.error} />
    </>
  );
}
