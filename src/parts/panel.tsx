import type { ReactNode } from "react";
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

/** A slip that opens over the page beside its button and moves nothing; Escape closes it. */
export function Panel({ label, look = "plain", isOpen, onOpenChange, children }: PanelProps) {
  return (
    <DialogTrigger isOpen={isOpen} onOpenChange={onOpenChange}>
      <Button look={look}>{label}</Button>
      <Popover className="panel" placement="bottom start">
        <Dialog className="panel-sheet" aria-label={label}>
          {children}
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}
