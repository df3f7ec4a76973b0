import { type ReactNode, useEffect } from "react";
import { Dialog, DialogTrigger, Popover } from "react-aria-components";
import { Button } from "./button.tsx";
import "./panel.css";

interface PanelProps {
  /** The words of the button that opens it, and its name. */
  label: string;
  look?: "plain" | "quiet";
  isOpen: boolean;
  onOpenChange: (isOpen: boolean) => void;
  children: ReactNode;
}

/**
 * A slip that opens over the page beside its button and moves nothing; Escape closes it. What lies beside
 * it can still be pressed: children go on answering while an adult reads it.
 */
export function Panel({ label, look = "plain", isOpen, onOpenChange, children }: PanelProps) {
  useEscape(isOpen, () => onOpenChange(false));
  return (
    <DialogTrigger isOpen={isOpen} onOpenChange={onOpenChange}>
      <Button look={look}>{label}</Button>
      <Popover className="panel" placement="bottom start" isNonModal>
        <Dialog className="panel-sheet" aria-label={label}>
          {children}
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}

/** Also when the focus is not on the slip; a dialog above it closes first and keeps the key. */
function useEscape(isOpen: boolean, close: () => void) {
  useEffect(() => {
    if (!isOpen) return;
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== "Escape" || event.defaultPrevented) return;
      event.preventDefault();
      close();
    };
    window.addEventListener("keydown", onKey);
    return () => window.removeEventListener("keydown", onKey);
  });
}
