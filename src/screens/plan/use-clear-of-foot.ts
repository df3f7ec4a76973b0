import { type RefObject, useEffect } from "react";

/**
 * Keeps what is focused or jumped to clear of a foot that lies over the end of the window, however high
 * the foot is: the page scrolls as if it ended above it.
 */
export function useClearOfFoot(foot: RefObject<HTMLElement | null>): void {
  useEffect(() => {
    const element = foot.current;
    if (element === null) return;
    const { style } = document.documentElement;
    const clear = () => {
      const covers = getComputedStyle(element).position === "sticky";
      style.scrollPaddingBottom = covers ? `${Math.ceil(element.offsetHeight) + 16}px` : "";
    };
    const watch = new ResizeObserver(clear);
    watch.observe(element);
    // Whether it covers anything depends on the height of the window too.
    watch.observe(document.documentElement);
    window.addEventListener("resize", clear);
    return () => {
      watch.disconnect();
      window.removeEventListener("resize", clear);
      style.scrollPaddingBottom = "";
    };
  }, [foot]);
}
