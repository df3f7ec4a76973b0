import { type WindowRequest, windowName, windowPath } from "../../shared/api/shell.ts";
import { Button } from "../parts/button.tsx";

/** An adult's page; what the class looks at opens by `openClassWindow`. */
type AdultsRequest = Extract<WindowRequest, { name: "second-observer" }>;

/** Opens a page of the app in a window of its own, or brings it forward where it is open; call within a press. */
function openInWindow(shows: AdultsRequest) {
  const bridge = window.pebblechime;
  if (bridge === undefined) window.open(windowPath(shows), windowName(shows), "popup");
  else void bridge.openWindow(shows);
}

/** The button for it. */
export function OwnWindow({ label, shows }: { label: string; shows: AdultsRequest }) {
  return <Button onPress={() => openInWindow(shows)}>{label}</Button>;
}
