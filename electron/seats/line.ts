import type { WebSocket } from "ws";
import { helloWithinMs, mostMessagesASecond, silentLineMs } from "../../shared/seats/limits.ts";
import { readFromSeat, type ToSeat } from "../../shared/seats/message.ts";
import type { Guesses } from "./guesses.ts";
import type { Joined, SeatLine, SeatRoom } from "./room.ts";

/** What may lie unsent on a line before it is given up, in bytes: a device that no longer reads. */
const mostUnsentBytes = 65_536;

/**
 * Serves one device: its code first, then its few words. The first word that is none of ours closes the
 * line, and so do too many of them.
 */
export function serveSeat(
  socket: WebSocket,
  address: string,
  room: SeatRoom,
  guesses: Guesses,
): void {
  let joined: Joined | null = null;
  let greeted = false;
  let left = false;
  let allowance = mostMessagesASecond;
  let countedAt = performance.now();

  const line: SeatLine = {
    tell(message) {
      if (left || socket.readyState !== socket.OPEN) return;
      if (socket.bufferedAmount > mostUnsentBytes) socket.terminate();
      else socket.send(JSON.stringify(message satisfies ToSeat));
    },
    close(why) {
      line.tell({ kind: "closed", why });
      hangUp(1000);
    },
  };

  function hangUp(code: number): void {
    if (left) return;
    left = true;
    clearTimeout(timer);
    joined?.gone();
    joined = null;
    socket.close(code);
    // One that never answers the goodbye is cut off.
    setTimeout(() => socket.terminate(), 2_000).unref();
  }

  let timer = setTimeout(() => hangUp(1008), helloWithinMs);
  timer.unref();

  /** So many words a second, in bursts of as many. */
  function isTooMany(): boolean {
    const now = performance.now();
    allowance = Math.min(
      mostMessagesASecond,
      allowance + ((now - countedAt) / 1_000) * mostMessagesASecond,
    );
    countedAt = now;
    allowance -= 1;
    return allowance < 0;
  }

  async function greet(code: string): Promise<void> {
    // Whoever has left before the turn came has tried nothing.
    const look = async () => (left ? "left" : room.join(code, line));
    const found = await guesses.tried(address, look);
    if (found === "left") return;
    if (typeof found === "string") line.close(found);
    else if (left) found.gone();
    else joined = found;
  }

  socket.on("message", (data, isBinary) => {
    if (left) return;
    clearTimeout(timer);
    timer = setTimeout(() => hangUp(1001), silentLineMs);
    timer.unref();
    const word = isBinary || isTooMany() ? null : readFromSeat(String(data));
    if (word === null) hangUp(1008);
    else if (word.kind === "hello") {
      if (greeted) hangUp(1008);
      else {
        greeted = true;
        greet(word.code).catch(() => hangUp(1011));
      }
    } else if (joined === null || !joined.hear(word)) hangUp(1008);
  });
  socket.on("close", () => hangUp(1000));
  socket.on("error", () => hangUp(1008));
}
