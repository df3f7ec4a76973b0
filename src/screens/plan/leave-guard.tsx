import { useBlocker } from "react-router";
import { Button } from "../../parts/button.tsx";
import { Dialog } from "../../parts/dialog.tsx";
import { useSay } from "../../text/text.tsx";

interface LeaveGuardProps {
  /** Whether leaving would lose something. */
  hasChanges: boolean;
  canSave: boolean;
  /** Resolves when all is kept; rejects when it could not be. */
  save: () => Promise<unknown>;
}

/** Asks before a page with changes is left. */
export function LeaveGuard({ hasChanges, canSave, save }: LeaveGuardProps) {
  const say = useSay();
  const blocker = useBlocker(
    ({ currentLocation, nextLocation }) =>
      hasChanges && currentLocation.pathname !== nextLocation.pathname,
  );
  const stay = () => blocker.reset?.();
  const go = () => blocker.proceed?.();
  // When it cannot be kept, the page stays and says why.
  const saveAndGo = () => save().then(go, stay);
  return (
    <Dialog
      title={say("plan.leaveTitle")}
      isOpen={blocker.state === "blocked"}
      onClose={stay}
      isAlert
      actions={
        <>
          <Button onPress={stay}>{say("plan.stay")}</Button>
          <Button onPress={go}>{say("plan.leave")}</Button>
          {canSave ? (
            <Button look="main" onPress={saveAndGo}>
              {say("plan.saveAndLeave")}
            </Button>
          ) : null}
        </>
      }
    >
      <p>{say(canSave ? "plan.leaveBody" : "plan.leaveBodyUnsavable")}</p>
    </Dialog>
  );
}
