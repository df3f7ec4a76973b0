import { useEffect, useState } from "react";
import { printedCode } from "../../../shared/seats/code.ts";
import { Button } from "../../parts/button.tsx";
import { useSay } from "../../text/text.tsx";

/** How long the code stays in sight, in ms: enough to type it. */
const shownMs = 20_000;

/**
 * The code for the adult's phone, on a press and for a while: this page is often projected while a class
 * joins, and whoever has the code gives points. Its line is there before it, so that nothing moves.
 */
export function PocketCode({ code }: { code: string }) {
  const say = useSay();
  const [isShown, setIsShown] = useState(false);
  useEffect(() => {
    if (!isShown) return;
    const timer = setTimeout(() => setIsShown(false), shownMs);
    return () => clearTimeout(timer);
  }, [isShown]);
  return (
    <>
      <Button aria-pressed={isShown} onPress={() => setIsShown(!isShown)}>
        {say("seat.pocketShow")}
      </Button>
      <strong className="seats-address seats-pocket-code">
        {isShown ? printedCode(code) : "\u00a0"}
      </strong>
    </>
  );
}
