import { type WindowRequest, windowPath } from "../../shared/api/shell.ts";
import { Button } from "../parts/button.tsx";

/** Opens a page of the app in a window of its own; a second press brings the first one forward. */
export function OwnWindow({ label, shows }: { label: string; shows: WindowRequest }) {
  const bridge = window.pebblechime;
  const open = () => {
    if (bridge === undefined) window.open(windowPath(shows), `pebblechime-${shows.name}`, "popup");
    else void bridge.openWindow(shows);
  };
  return <Button onPress={open}>{label}</Button>;
}
