/** A square picture as a PNG file. */
export interface SizedPng {
  readonly size: number;
  readonly bytes: Uint8Array;
}

/**
 * A Windows icon file that holds PNG pictures up to 256 pixels.
 *
 * Source: Microsoft's ICO format as documented for Windows Vista and later: a header of 6 bytes, an entry
 * of 16 bytes for each picture, 0 standing for 256 pixels, then the pictures.
 */
export function icoFile(pictures: readonly SizedPng[]): Uint8Array {
  const header = Buffer.alloc(6 + 16 * pictures.length);
  header.writeUInt16LE(1, 2);
  header.writeUInt16LE(pictures.length, 4);
  let place = header.length;
  pictures.forEach(({ size, bytes }, index) => {
    const entry = 6 + 16 * index;
    header.writeUInt8(size === 256 ? 0 : size, entry);
    header.writeUInt8(size === 256 ? 0 : size, entry + 1);
    header.writeUInt16LE(1, entry + 4);
    header.writeUInt16LE(32, entry + 6);
    header.writeUInt32LE(bytes.length, entry + 8);
    header.writeUInt32LE(place, entry + 12);
    place += bytes.length;
  });
  return Buffer.concat([header, ...pictures.map(({ bytes }) => bytes)]);
}

/** Apple's names for PNG pictures by their size in pixels; two for those that also serve at double density. */
const appleTypes: Readonly<Record<number, readonly string[]>> = {
  16: ["icp4"],
  32: ["icp5", "ic11"],
  64: ["ic12"],
  128: ["ic07"],
  256: ["ic08", "ic13"],
  512: ["ic09", "ic14"],
  1024: ["ic10"],
};

/**
 * A macOS icon file that holds PNG pictures.
 *
 * Source: the Apple Icon Image layout: "icns", the file's length, then for each picture its type, its
 * length with these eight bytes, and the PNG; numbers are big-endian.
 */
export function icnsFile(pictures: readonly SizedPng[]): Uint8Array {
  const parts = pictures.flatMap(({ size, bytes }) =>
    (appleTypes[size] ?? []).map((type) => chunk(type, bytes)),
  );
  return chunk("icns", Buffer.concat(parts));
}

function chunk(type: string, bytes: Uint8Array): Buffer {
  const head = Buffer.alloc(8);
  head.write(type, 0, "latin1");
  head.writeUInt32BE(bytes.length + 8, 4);
  return Buffer.concat([head, bytes]);
}
