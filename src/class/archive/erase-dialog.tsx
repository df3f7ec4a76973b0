import type { ReactNode } from "react";
import { Button } from "../../parts/button.tsx";
import { Dialog } from "../../parts/dialog.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

interface EraseDialogProps {
  title: string;
  /** On the button that erases. */
  label: string;
  isErased: boolean;
  isPending: boolean;
  error: Error | null;
  onErase: () => void;
  onClose: () => void;
  /** What goes, and after that what went. */
  children: ReactNode;
}

/** Asks before something is erased for good, and says afterwards what went. */
export function EraseDialog(props: EraseDialogProps) {
  const { title, label, isErased, isPending, error, onErase, onClose, children } = props;
  const say = useSay();
  return (
    <Dialog
      title={title}
      isOpen
      isAlert
      onClose={onClose}
      actions={
        isErased ? (
          <Button look="main" onPress={onClose}>
            {say("act.close")}
          </Button>
        ) : (
          <>
            <Button onPress={onClose}>{say("act.cancel")}</Button>
            <Button look="danger" isDisabled={isPending} onPress={onErase}>
              {label}
            </Button>
          </>
        )
      }
    >
      {children}
      <Problem error={error} />
    </Dialog>
  );
}
