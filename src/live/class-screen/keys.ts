/** The way out by keys; four at once, so that no child presses them by chance. */
export const wayOutKeys = "Ctrl + Alt + Shift + L";

export function areWayOutKeys(event: KeyboardEvent): boolean {
  return event.ctrlKey && event.altKey && event.shiftKey && event.code === "KeyL";
}
