import { element } from "./dom.ts";

/** The band changes at most so often, in ms: many pages may change together, and none of them flickers. */
export const bandRestMs = 1_000;

/** A band at the page's edge that lightens slowly and stays: the quiet sign. */
export function quietBand() {
  const band = element("div", { className: "band" });
  let isLit = false;
  let isWanted = false;
  let changedAt = Number.NEGATIVE_INFINITY;
  let timer = 0;

  function settle(): void {
    clearTimeout(timer);
    if (isWanted === isLit) return;
    const rest = changedAt + bandRestMs - performance.now();
    // What a child presses on and off meanwhile comes to nothing, or to one change.
    if (rest > 0) timer = window.setTimeout(settle, rest);
    else {
      isLit = isWanted;
      changedAt = performance.now();
      band.className = isLit ? "band band-on" : "band";
    }
  }

  return {
    band,
    /** Lights it, or lets it fade: now, or as soon as it has rested. */
    light(wanted: boolean): void {
      isWanted = wanted;
      settle();
    },
  };
}
