import { type WindowRequest, windowKey, windowPath } from "../../shared/api/shell.ts";
import { Button } from "../parts/button.tsx";

/** An adult's page; the students' tiles open by `openClassWindow`. */
type AdultsRequest = Exclude<WindowRequest, { name: "tiles" }>;

/** Opens a page of the app in a window of its own, or brings it forward where it is open; call within a press. */
function openInWindow(shows: AdultsRequest) {
  const bridge = window.pebblechime;
  if (bridge === undefined) {
    window.open(windowPath(shows), `pebblechime-${windowKey(shows)}`, "popup");
  } else void bridge.openWindow(shows);
}

/** The button for it. */
export function OwnWindow({ label, shows }: { label: string; shows: AdultsRequest }) {
  return <Button onPress={() => openInWindow(shows)}>{label}</Button>;
}
