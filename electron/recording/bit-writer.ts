/** Writes numbers of any width, the highest bit first, into bytes that grow as needed. */
export interface BitWriter {
  /** The lowest `width` bits of a number, 0 to 32 of them; negative ones in two's complement. */
  write(value: number, width: number): void;
  /** So many zeros, then a one. */
  unary(zeros: number): void;
  /** Fills the last byte with zeros. */
  align(): void;
  /** What was written so far, in whole bytes. */
  bytes(): Uint8Array;
}

export function bitWriter(): BitWriter {
  let room = new Uint8Array(1024);
  let length = 0;
  let pending = 0;
  let filled = 0;

  function push(byte: number): void {
    if (length === room.length) {
      const larger = new Uint8Array(2 * room.length);
      larger.set(room);
      room = larger;
    }
    room[length++] = byte;
  }

  function write(value: number, width: number): void {
    let left = width;
    while (left > 0) {
      const taken = Math.min(8 - filled, left);
      const part = (value >>> (left - taken)) & ((1 << taken) - 1);
      pending = (pending << taken) | part;
      filled += taken;
      left -= taken;
      if (filled < 8) continue;
      push(pending);
      pending = 0;
      filled = 0;
    }
  }

  return {
    write,
    unary(zeros) {
      for (let left = zeros; left > 0; left -= 32) write(0, Math.min(left, 32));
      write(1, 1);
    },
    align() {
      if (filled > 0) write(0, 8 - filled);
    },
    bytes: () => room.subarray(0, length),
  };
}
