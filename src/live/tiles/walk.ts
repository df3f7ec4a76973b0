import type { KeyboardEvent } from "react";

const steps: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** Arrow keys walk what can be pressed on the tiles, as it lies on the screen; also from a tile itself. */
export function walkTiles(event: KeyboardEvent, grid: HTMLElement | null) {
  const step = steps[event.key];
  if (step === undefined || grid === null || !(event.target instanceof HTMLElement)) return;
  const next = nearest(event.target, step, grid);
  if (next === null) return;
  event.preventDefault();
  next.focus();
}

function nearest(
  from: HTMLElement,
  [stepX, stepY]: readonly [number, number],
  grid: HTMLElement,
): HTMLElement | null {
  const [fromX, fromY] = centreOf(from);
  let found: HTMLElement | null = null;
  let leastCost = Number.POSITIVE_INFINITY;
  for (const button of grid.querySelectorAll<HTMLElement>("button:not(:disabled)")) {
    if (button === from || from.contains(button)) continue;
    if (!button.checkVisibility({ visibilityProperty: true })) continue;
    const [x, y] = centreOf(button);
    const along = (x - fromX) * stepX + (y - fromY) * stepY;
    const across = Math.abs((x - fromX) * stepY) + Math.abs((y - fromY) * stepX);
    // Across counts double: straight ahead beats a nearer one off to the side.
    const cost = along + 2 * across;
    if (along <= 4 || cost >= leastCost) continue;
    found = button;
    leastCost = cost;
  }
  return found;
}

function centreOf(element: HTMLElement): readonly [number, number] {
  const { x, y, width, height } = element.getBoundingClientRect();
  return [x + width / 2, y + height / 2];
}
