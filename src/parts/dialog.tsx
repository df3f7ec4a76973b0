import type { ReactNode } from "react";
import { Dialog as AriaDialog, Heading, Modal, ModalOverlay } from "react-aria-components";
import "./dialog.css";

interface DialogProps {
  title: string;
  isOpen: boolean;
  onClose: () => void;
  children: ReactNode;
  /** What can be pressed, at the foot. */
  actions: ReactNode;
  isAlert?: boolean;
}

/** A sheet laid over the page; Escape lays it aside. */
export function Dialog({ title, isOpen, onClose, children, actions, isAlert }: DialogProps) {
  return (
    <ModalOverlay
      isOpen={isOpen}
      onOpenChange={(open) => {
        if (!open) onClose();
      }}
      isDismissable={!isAlert}
      className="dialog-overlay"
    >
      <Modal className="dialog-sheet">
        <AriaDialog role={isAlert ? "alertdialog" : "dialog"} className="dialog">
          <Heading slot="title" className="dialog-title">
            {title}
          </Heading>
          <div className="dialog-body">{children}</div>
          <div className="dialog-actions">{actions}</div>
        </AriaDialog>
      </Modal>
    </ModalOverlay>
  );
}
