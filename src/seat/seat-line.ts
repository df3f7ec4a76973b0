import { lostAfterMs } from "../../shared/seats/limits.ts";
import type { FromSeat, ToSeat } from "../../shared/seats/message.ts";

/** How long to wait before the line is tried again, in ms; the last one for ever. */
const pauses = [500, 1_000, 2_000, 4_000, 8_000];

export interface SeatSocket {
  /** False when the line is not open: nothing was sent. */
  send(message: FromSeat): boolean;
  isOpen(): boolean;
  /** Tries at once. */
  retry(): void;
  /**
   * Takes the line for lost when nothing was heard on it for too long: a network that goes away says nothing,
   * and a browser may wait for minutes. To be asked as often as something is said.
   */
  check(): void;
  /** Hangs up for good. */
  stop(): void;
}

/**
 * The line to the class's computer, opened again and again until it holds.
 *
 * @param opened said whenever it is open anew: the code comes first
 */
export function seatLine(
  opened: () => void,
  heard: (message: ToSeat) => void,
  lost: () => void,
): SeatSocket {
  const scheme = location.protocol === "https:" ? "wss:" : "ws:";
  let socket: WebSocket | null = null;
  let tries = 0;
  let timer = 0;
  let stopped = false;
  let heardAt = 0;

  function open(): void {
    clearTimeout(timer);
    if (stopped) return;
    const made = new WebSocket(`${scheme}//${location.host}/seat`);
    socket = made;
    heardAt = performance.now();
    made.onopen = () => {
      if (socket === made) opened();
    };
    made.onmessage = (event) => {
      if (socket !== made) return;
      tries = 0;
      heardAt = performance.now();
      // The class's computer alone speaks on this line, and both were built together.
      heard(JSON.parse(String(event.data)) as ToSeat);
    };
    made.onclose = () => {
      if (socket !== made) return;
      socket = null;
      lost();
      timer = window.setTimeout(open, pauses[Math.min(tries, pauses.length - 1)]);
      tries += 1;
    };
  }

  open();
  return {
    send(message) {
      if (socket === null || socket.readyState !== 1) return false;
      socket.send(JSON.stringify(message));
      return true;
    },
    isOpen: () => socket !== null && socket.readyState === 1,
    retry() {
      // Nobody listened meanwhile, so the silence says nothing.
      heardAt = performance.now();
      if (socket === null) open();
    },
    check() {
      if (socket === null || performance.now() - heardAt < lostAfterMs) return;
      const silent = socket;
      socket = null;
      silent.close();
      lost();
      open();
    },
    stop() {
      stopped = true;
      clearTimeout(timer);
      const open = socket;
      socket = null;
      if (open !== null) open.close();
    },
  };
}
