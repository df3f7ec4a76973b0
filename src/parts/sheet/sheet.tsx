import type { ClipboardEvent, KeyboardEvent, ReactNode, RefObject } from "react";
import { type Place, placeAfter } from "./sheet-keys.ts";
import "./sheet.css";

/** What a sheet does with the keys that go down in one of its boxes. */
export interface SheetKeys {
  /** Before any key, so that what has been read can go. */
  onAny?: () => void;
  onMove: (next: Place, from: Place) => void;
  onEnter: (here: Place) => void;
  onErase: (here: Place, key: "Backspace" | "Delete") => void;
  /** One character. */
  onType: (here: Place, key: string) => void;
}

interface SheetProps {
  label: string;
  /** Id of the text that says which keys do what. */
  helpId: string;
  grid: RefObject<HTMLTableElement | null>;
  rowCount: number;
  boxCount: number;
  /** Whether each row has a place past its last box, and buttons beyond it. */
  hasPastEnd?: boolean;
  keys: SheetKeys;
  onPaste?: (text: string, here: Place) => void;
  /** When the hand leaves the whole sheet. */
  onLeave: () => void;
  head: ReactNode;
  children: ReactNode;
}

/**
 * A sheet made for typing: one key a box; arrows, Home, End and Enter move inside it, and Tab leaves it,
 * so that nobody has to walk through hundreds of boxes to reach what comes after.
 */
export function Sheet(props: SheetProps) {
  const { grid, rowCount, boxCount, hasPastEnd = false, keys } = props;
  const onKeyDown = (event: KeyboardEvent) => {
    const here = placeOf(event.target);
    if (here === null) return;
    if (event.ctrlKey || event.metaKey || event.altKey || event.key === "Shift") return;
    keys.onAny?.();
    if (hasPastEnd && event.key === "ArrowRight" && here.box > boxCount) {
      event.preventDefault();
      if (event.target instanceof HTMLElement) focusRowButton(event.target);
      return;
    }
    const next = placeAfter(event, here, rowCount, hasPastEnd ? boxCount + 1 : boxCount, boxCount);
    const taken =
      event.key === "Enter"
        ? () => keys.onEnter(here)
        : next !== null
          ? () => keys.onMove(next, here)
          : event.key === "Backspace" || event.key === "Delete"
            ? eraser(keys, here, event.key)
            : event.key.length === 1
              ? () => keys.onType(here, event.key)
              : null;
    if (taken === null) return;
    event.preventDefault();
    taken();
  };
  const onPaste = (event: ClipboardEvent) => {
    const here = placeOf(event.target);
    if (here === null || props.onPaste === undefined) return;
    event.preventDefault();
    props.onPaste(event.clipboardData.getData("text"), here);
  };
  return (
    <div className="cards-scroll">
      <table
        ref={grid}
        role="grid"
        aria-label={props.label}
        aria-describedby={props.helpId}
        className="cards-grid"
        onKeyDown={onKeyDown}
        onPaste={onPaste}
        onBlur={(event) => {
          if (!event.currentTarget.contains(event.relatedTarget)) props.onLeave();
        }}
      >
        <thead>{props.head}</thead>
        <tbody>{props.children}</tbody>
      </table>
    </div>
  );
}

const eraser = (keys: SheetKeys, here: Place, key: "Backspace" | "Delete") => () =>
  keys.onErase(here, key);

/** Puts the hand at a place of the sheet, or at the fields that stand in its row instead of boxes. */
export function focusPlace(grid: HTMLElement | null, { row, box }: Place) {
  grid
    ?.querySelector<HTMLElement>(`[data-place="${row}/${box}"], [data-totals="${row}"] input`)
    ?.focus();
}

function focusRowButton(from: HTMLElement) {
  from.closest("tr")?.querySelector("button")?.focus();
}

/** The box, or the place past the last one, that a key or a paste is meant for. */
function placeOf(target: EventTarget): Place | null {
  if (!(target instanceof HTMLElement)) return null;
  const [row, box] = (target.dataset.place ?? "").split("/").map(Number);
  return row === undefined || box === undefined ? null : { row, box };
}
