import { useState } from "react";
import { useConnection } from "../../api/context.tsx";
import { useAsk } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { Dialog } from "../../parts/dialog.tsx";
import { Problem } from "../../parts/problem.tsx";
import { forgetForms } from "../../parts/sheet/use-kept-form.ts";
import { useSay } from "../../text/text.tsx";
import { wayOutKeys } from "./keys.ts";
import { openClassWindow } from "./own-window.ts";

/** Hands the screen over to the class: says first how the adult comes back, and then where it is shown. */
export function ClassScreenButton({ onOpened }: { onOpened: () => void }) {
  const say = useSay();
  const [isOpen, setOpen] = useState(false);
  return (
    <>
      <Button look="main" onPress={() => setOpen(true)}>
        {say("classScreen.open")}
      </Button>
      {isOpen ? <Before onClose={() => setOpen(false)} onOpened={onOpened} /> : null}
    </>
  );
}

interface BeforeProps {
  onClose: () => void;
  /** A window of its own has opened. */
  onOpened: () => void;
}

function Before({ onClose, onOpened }: BeforeProps) {
  const say = useSay();
  const { api, swap } = useConnection();
  const code = useAsk("settings", ["class-screen-code"], () => api.classScreen.code()).data;
  const [isBlocked, setBlocked] = useState(false);
  const [error, setError] = useState<unknown>(null);
  const isShell = window.pebblechime !== undefined;

  const inOwnWindow = async () => {
    try {
      if (await openClassWindow(api, { name: "tiles" })) {
        onClose();
        onOpened();
      } else setBlocked(true);
    } catch (failure) {
      setError(failure);
    }
  };
  const here = async () => {
    // Within the press; a browser that refuses shows the same in its window.
    void document.documentElement.requestFullscreen?.().catch(() => undefined);
    try {
      const { ticket } = await api.classScreen.enter({ here: true });
      if (ticket === null) return;
      // Children sit at this tab from now on: what was being written about one of them is not left in it.
      forgetForms("");
      swap(ticket);
    } catch (failure) {
      setError(failure);
    }
  };

  return (
    <Dialog
      title={say("classScreen.label")}
      isOpen
      onClose={onClose}
      actions={
        <>
          <Button onPress={onClose}>{say("act.cancel")}</Button>
          {isShell ? (
            <Button look="main" onPress={inOwnWindow}>
              {say("classScreen.open")}
            </Button>
          ) : (
            <>
              <Button onPress={inOwnWindow}>{say("classScreen.ownWindow")}</Button>
              <Button look="main" onPress={here}>
                {say("classScreen.here")}
              </Button>
            </>
          )}
        </>
      }
    >
      <p>{say("classScreen.openHelp")}</p>
      <p>
        <strong>{say("classScreen.wayOut", { keys: wayOutKeys })}</strong>{" "}
        {code === undefined
          ? null
          : say(code.hasCode ? "classScreen.wayOutCode" : "classScreen.wayOutNoCode")}
      </p>
      <p>{say(isShell ? "classScreen.shellHelp" : "classScreen.ownWindowHelp")}</p>
      {isBlocked ? <p role="alert">{say("classScreen.blocked")}</p> : null}
      <Problem error={error} />
    </Dialog>
  );
}
