import { useSay } from "../../text/text.tsx";
import { Button } from "../button.tsx";

/**
 * Below a sheet: saving by hand, and how much of it is saved. The button never rests: a hand that comes to it
 * by Tab has just had the sheet saved, and would lose its place.
 */
export function SheetFoot(props: { state: string; onSave: () => void }) {
  const say = useSay();
  return (
    <div className="cards-foot">
      <Button look="main" onPress={props.onSave}>
        {say("act.save")}
      </Button>
      <span role="status">{props.state}</span>
    </div>
  );
}
