import { Button } from "../../parts/button.tsx";

interface OwnWindowProps {
  label: string;
  path: string;
  /** Names the window, so that a second press brings the first one forward. */
  name: string;
}

/**
 * Opens a page of the app in a window of its own. The desktop shell opens only the windows it knows of;
 * there the button is left out for others rather than doing nothing.
 */
export function OwnWindow({ label, path, name }: OwnWindowProps) {
  const bridge = window.pebblechime;
  if (bridge !== undefined && path !== "/board") return null;
  const open = () => {
    if (bridge === undefined) window.open(path, `pebblechime-${name}`, "popup");
    else void bridge.openBoard();
  };
  return <Button onPress={open}>{label}</Button>;
}
