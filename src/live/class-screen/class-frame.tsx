import { type ReactNode, useEffect, useState } from "react";
import { Button } from "../../parts/button.tsx";
import { useSay } from "../../text/text.tsx";
import { CodePad } from "./code-pad.tsx";
import { Corner } from "./corner.tsx";
import { useWayOut } from "./use-way-out.ts";
import "./class-screen.css";

/**
 * All that stands around the tiles of the class screen: the corner that is the adult's way out, and, in a
 * browser, the way to fill the screen. Keys, addresses and the way back lead nowhere from here, because the
 * window's line opens nothing else.
 */
export function ClassFrame({ children }: { children: ReactNode }) {
  const say = useSay();
  const { stage, error, begin, leave, stay } = useWayOut();
  if (stage === "left") {
    return (
      <main className="class-left">
        <p>{say("classScreen.canClose")}</p>
      </main>
    );
  }
  return (
    <div className="class-frame">
      {children}
      <FillScreen />
      <Corner onHeld={begin} />
      {stage === "code" ? (
        <CodePad error={error} onCode={(code) => void leave(code)} onStay={stay} />
      ) : null}
    </div>
  );
}

/** Leaving the browser's full screen is not leaving the class screen; this leads back into it. */
function FillScreen() {
  const say = useSay();
  const [isFull, setFull] = useState(document.fullscreenElement !== null);
  useEffect(() => {
    const look = () => setFull(document.fullscreenElement !== null);
    document.addEventListener("fullscreenchange", look);
    return () => document.removeEventListener("fullscreenchange", look);
  }, []);
  if (window.pebblechime !== undefined || !document.fullscreenEnabled || isFull) return null;
  return (
    <Button
      look="quiet"
      className="class-fill"
      onPress={() => void document.documentElement.requestFullscreen().catch(() => undefined)}
    >
      {say("classScreen.fill")}
    </Button>
  );
}
