import { Input, NumberField } from "react-aria-components";
import { Button } from "../../parts/button.tsx";
import { useSay } from "../../text/text.tsx";

/** The same list with one item at another place. */
export function moved<Item>(items: readonly Item[], from: number, to: number): Item[] {
  const rest = items.filter((_, index) => index !== from);
  const item = items[from];
  if (item === undefined) return rest;
  return [...rest.slice(0, to), item, ...rest.slice(to)];
}

interface MoveProps {
  name: string;
  index: number;
  count: number;
  onMove: (to: number) => void;
}

/** Moves one row up or down; works the same by touch, mouse and keyboard. */
export function MoveButtons({ name, index, count, onMove }: MoveProps) {
  const say = useSay();
  return (
    <span className="groups-move">
      <Button
        look="quiet"
        isDisabled={index === 0}
        onPress={() => onMove(index - 1)}
        aria-label={say("groups.moveUp", { name })}
      >
        <Arrow turn="up" />
      </Button>
      <Button
        look="quiet"
        isDisabled={index === count - 1}
        onPress={() => onMove(index + 1)}
        aria-label={say("groups.moveDown", { name })}
      >
        <Arrow turn="down" />
      </Button>
    </span>
  );
}

/** Moves one row to the place that is typed in, from 1; at once when the number is entered or left. */
export function MoveToPlace({ name, index, count, onMove }: MoveProps) {
  const say = useSay();
  return (
    <NumberField
      className="groups-place"
      aria-label={say("groups.placeOf", { name })}
      value={index + 1}
      minValue={1}
      maxValue={count}
      step={1}
      onChange={(place) => {
        if (Number.isInteger(place) && place !== index + 1) onMove(place - 1);
      }}
    >
      <Input className="field-input field-number" />
    </NumberField>
  );
}

function Arrow({ turn }: { turn: "up" | "down" }) {
  return (
    <svg className={`groups-arrow groups-arrow-${turn}`} viewBox="0 0 16 16" aria-hidden="true">
      <path d="M8 13V3M3.5 7.5 8 3l4.5 4.5" />
    </svg>
  );
}
