import { useCallback, useEffect, useState } from "react";
import { windowNameStart } from "../../../shared/api/shell.ts";
import { isRefusal } from "../../api/client.ts";
import { useConnection } from "../../api/context.tsx";
import { useOpenSession } from "../../api/queries.ts";
import { keepTicket } from "../../api/ticket.ts";
import { areWayOutKeys } from "./keys.ts";

/** How far the adult is on the way out: not begun, asked for the code, or out and the window stays open. */
export type WayOutStage = "closed" | "code" | "left";

/**
 * The adult's way out of the class screen. The desktop side decides: without a code it lets go at once,
 * otherwise the code is asked for, and checked over there.
 */
export function useWayOut() {
  const { api } = useConnection();
  const sessionId = useOpenSession()?.id ?? null;
  const [stage, setStage] = useState<WayOutStage>("closed");
  const [error, setError] = useState<unknown>(null);

  const leave = useCallback(
    async (code: string | null) => {
      try {
        const { ticket } = await api.classScreen.leave({ code });
        if (isOwnWindow()) {
          window.close();
          // The desktop app closes it; a browser may keep a window that it did not open by script.
          setStage("left");
        } else if (ticket !== null) {
          keepTicket(ticket);
          // Back to the adult's own page, whatever address a child has typed, and all of it loaded anew.
          window.location.replace(sessionId === null ? "/" : `/session/${sessionId}`);
        }
      } catch (failure) {
        setStage("code");
        // Without a code the desktop side only asks for it.
        setError(code === null && isRefusal(failure, "code-wrong") ? null : failure);
      }
    },
    [api, sessionId],
  );
  const begin = useCallback(() => void leave(null), [leave]);

  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (!areWayOutKeys(event) || event.repeat) return;
      event.preventDefault();
      begin();
    };
    window.addEventListener("keydown", press);
    return () => window.removeEventListener("keydown", press);
  }, [begin]);

  const stay = useCallback(() => {
    setStage("closed");
    setError(null);
  }, []);
  return { stage, error, begin, leave, stay };
}

/** The window was opened for the class, beside the adult's; no address that a child types changes that. */
const isOwnWindow = () =>
  window.pebblechime !== undefined || window.name.startsWith(windowNameStart);
