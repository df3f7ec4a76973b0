import decodeQR from "qr/decode.js";
import { expect, it } from "vitest";
import { qrPath } from "../../../../../src/print/seats/qr-path.ts";

it.each(["http://192.0.2.17:47120/#BCDFGHJK", "https://[2001:db8::17]:47120/#ZXWVTSRP"])(
  "what is drawn for %s is read again by a reader of QR codes",
  (text) => {
    const { path, size } = qrPath(text);
    const scale = 8;
    const width = size * scale;
    const data = new Uint8Array(width * width * 4).fill(255);
    for (const [, x, y] of path.matchAll(/M(\d+) (\d+)h1v1h-1z/g)) {
      for (let row = 0; row < scale; row += 1) {
        for (let column = 0; column < scale; column += 1) {
          const at = ((Number(y) * scale + row) * width + Number(x) * scale + column) * 4;
          data.fill(0, at, at + 3);
        }
      }
    }
    expect(decodeQR({ width, height: width, data })).toBe(text);
  },
);
