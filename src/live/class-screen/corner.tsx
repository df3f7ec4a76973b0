import { useEffect, useRef, useState } from "react";
import { useSay } from "../../text/text.tsx";

/** So long the corner is held; longer than any press of a child's that means something else. */
const holdMs = 3_000;

/**
 * The folded corner of the page: held for three seconds it begins the way out. It is left out of the order
 * of keys, which have their own way.
 */
export function Corner({ onHeld }: { onHeld: () => void }) {
  const say = useSay();
  const [isHeld, setHeld] = useState(false);
  const done = useRef(onHeld);
  done.current = onHeld;
  useEffect(() => {
    if (!isHeld) return;
    const timer = setTimeout(() => {
      setHeld(false);
      done.current();
    }, holdMs);
    return () => clearTimeout(timer);
  }, [isHeld]);
  const letGo = () => setHeld(false);
  return (
    <button
      type="button"
      className="class-corner"
      data-held={isHeld || undefined}
      tabIndex={-1}
      aria-label={say("classScreen.corner")}
      onPointerDown={() => setHeld(true)}
      onPointerUp={letGo}
      onPointerLeave={letGo}
      onPointerCancel={letGo}
      onContextMenu={(event) => event.preventDefault()}
    />
  );
}
