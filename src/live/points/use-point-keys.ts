import { useEffect, useRef } from "react";

/** A minus on the number pad means the next pad key takes, for so long in ms. */
const takeWithinMs = 2_000;

/** Students who have a key of the number pad. */
export const mostPinned = 4;

/**
 * What a key means for the pinned students: null for a key that is not one of these, or the first half of
 * a take.
 *
 * @param minusMs when the minus was last pressed; null when it was not, or was used up
 */
export function pointKey(
  code: string,
  nowMs: number,
  minusMs: number | null,
): { readonly kind: "give" | "take"; readonly place: number } | "minus" | null {
  if (code === "NumpadSubtract") return "minus";
  if (code === "PageDown") return { kind: "give", place: 0 };
  if (code === "PageUp") return { kind: "take", place: 0 };
  const place = /^Numpad([1-4])$/.exec(code)?.[1];
  if (place === undefined) return null;
  const takes = minusMs !== null && nowMs - minusMs <= takeWithinMs;
  return { kind: takes ? "take" : "give", place: Number(place) - 1 };
}

interface PointKeys {
  readonly pinned: readonly string[];
  readonly isOn: boolean;
  readonly onGive: (studentId: string) => void;
  /** Null where no points are taken: minus and a presenter's back are then left alone. */
  readonly onTake: ((studentId: string) => void) | null;
}

/**
 * The number pad and a presenter give and take for pinned students while the adult walks about: pad digits
 * give, minus and then a digit takes; a presenter's forward gives and its back takes for the first. They
 * reach the window that has the focus, and work whatever has it there but a field or a dialog. A key held
 * down counts once. A presenter's start key would reload this window; as long as the strip stands it does
 * nothing, in a pause too.
 */
export function usePointKeys({ pinned, isOn, onGive, onTake }: PointKeys): void {
  const minus = useRef<number | null>(null);
  useEffect(() => {
    const onStart = (event: KeyboardEvent) => {
      if (event.code === "F5") event.preventDefault();
    };
    window.addEventListener("keydown", onStart);
    return () => window.removeEventListener("keydown", onStart);
  }, []);
  useEffect(() => {
    if (!isOn) return;
    const onKey = (event: KeyboardEvent) => {
      if (event.repeat || event.defaultPrevented || isTaken(event.target)) return;
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const meant = pointKey(event.code, event.timeStamp, minus.current);
      if (meant === null) return;
      if (onTake === null && (meant === "minus" || meant.kind === "take")) return;
      event.preventDefault();
      minus.current = meant === "minus" ? event.timeStamp : null;
      if (meant === "minus") return;
      const studentId = pinned[meant.place];
      if (studentId === undefined) return;
      if (meant.kind === "give") onGive(studentId);
      else onTake?.(studentId);
    };
    window.addEventListener("keydown", onKey);
    return () => window.removeEventListener("keydown", onKey);
  }, [pinned, isOn, onGive, onTake]);
}

const isTaken = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement &&
  (target.matches("input, textarea, select") ||
    target.closest("[role=dialog], [role=alertdialog]") !== null);
