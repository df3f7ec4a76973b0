import type { ReactNode } from "react";
import { useAsides, usePutAside } from "../../api/queries.ts";
import { Button } from "../../parts/button.tsx";
import { useSay } from "../../text/text.tsx";

interface WaitingItemProps {
  /** What waits, by a name that stays the same while it is the same thing. */
  what: string;
  /** The same in words, for who hears the button alone. */
  named: string;
  children: ReactNode;
}

/** One thing that waits for the teacher, until it is done or put aside. */
export function WaitingItem({ what, named, children }: WaitingItemProps) {
  const say = useSay();
  const asides = useAsides();
  const putAside = usePutAside();
  // Nothing is shown that may have been put aside.
  if (asides === undefined || asides.has(what)) return null;
  return (
    <li className="today-waiting-item">
      <span>{children}</span>
      <Button
        look="quiet"
        aria-label={say("today.putAsideNamed", { what: named })}
        onPress={() => putAside(what, true)}
      >
        {say("today.putAside")}
      </Button>
    </li>
  );
}
