import { type FocusEvent, type RefObject, useEffect, useRef } from "react";

/**
 * Keeps the focus near when what had it goes out of sight or rests: the place around it takes it, never
 * the page, so that keys and screen readers go on from there. The place needs `tabIndex={-1}` and the
 * returned handlers.
 *
 * @param place what takes the focus
 * @param shown what is shown in it now; each change is looked at
 */
export function useKeepFocus(place: RefObject<HTMLElement | null>, shown: string) {
  const had = useRef(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: looks whenever something else is shown
  useEffect(() => {
    const focused = document.activeElement;
    const isInside =
      focused instanceof HTMLElement &&
      focused !== place.current &&
      place.current?.contains(focused) === true;
    const isLost = isInside
      ? focused.matches(":disabled") || !focused.checkVisibility({ visibilityProperty: true })
      : had.current && focused === document.body;
    if (isLost) place.current?.focus({ preventScroll: true });
  }, [place, shown]);
  return {
    onFocus: () => {
      had.current = true;
    },
    // A browser takes the focus from what can no longer have it and gives it to nobody.
    onBlur: ({ relatedTarget }: FocusEvent) => {
      had.current = relatedTarget === null || place.current?.contains(relatedTarget) === true;
    },
  };
}
