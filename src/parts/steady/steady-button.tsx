import { type ComponentProps, useRef } from "react";
import { Button } from "../button.tsx";
import { useSteady } from "./use-steady.ts";

interface SteadyButtonProps extends ComponentProps<typeof Button> {
  /** What the button stands for now; leave out where it only appears and goes. */
  shown?: unknown;
  /** How long it takes nothing after it has appeared or changed, in ms. */
  restMs?: number;
}

/** A button that takes no press which was meant for what stood in its place a moment ago. */
export function SteadyButton({ shown = null, restMs, onPress, ...rest }: SteadyButtonProps) {
  const steady = useSteady(shown, restMs);
  // The press handler outlives the change of what is shown; it asks for the newest.
  const isMeant = useRef(steady.isMeant);
  isMeant.current = steady.isMeant;
  return (
    <Button
      {...rest}
      onPressStart={steady.begin}
      onPress={(event) => {
        if (isMeant.current()) onPress?.(event);
      }}
    />
  );
}
