import { type WindowRequest, windowKey, windowPath } from "../../shared/api/shell.ts";
import { Button } from "../parts/button.tsx";

/** Opens a page of the app in a window of its own, or brings it forward where it is open; call within a press. */
export function openInWindow(shows: WindowRequest) {
  const bridge = window.pebblechime;
  if (bridge === undefined) {
    window.open(windowPath(shows), `pebblechime-${windowKey(shows)}`, "popup");
  } else void bridge.openWindow(shows);
}

/** The button for it. */
export function OwnWindow(props: {
  label: string;
  shows: WindowRequest;
  /** Told once it is asked for. */
  onOpen?: () => void;
}) {
  const { label, shows, onOpen } = props;
  const open = () => {
    openInWindow(shows);
    onOpen?.();
  };
  return <Button onPress={open}>{label}</Button>;
}
