import { type RefObject, useLayoutEffect, useState } from "react";
import type { TileRoom } from "./tile-layout.ts";

/** How much room an element has, now and whenever it changes; null before the first look. */
export function useRoom(element: RefObject<HTMLElement | null>): TileRoom | null {
  const [room, setRoom] = useState<TileRoom | null>(null);
  useLayoutEffect(() => {
    const watched = element.current;
    if (watched === null) return;
    const look = () => {
      const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
      setRoom({ width: watched.clientWidth, height: watched.clientHeight, rem });
    };
    look();
    const observer = new ResizeObserver(look);
    observer.observe(watched);
    return () => observer.disconnect();
  }, [element]);
  return room;
}
