import encodeQR from "qr";

/** Empty modules around the drawing, as ISO/IEC 18004 asks for. */
const quiet = 4;

/**
 * A QR code as one path of unit squares, one a dark module, with the empty border it needs.
 *
 * @returns the path, and the length of a side in modules
 */
export function qrPath(text: string): { readonly path: string; readonly size: number } {
  const modules = encodeQR(text, "raw", { ecc: "medium", border: quiet });
  const path = modules
    .flatMap((row, y) => row.map((isDark, x) => (isDark ? `M${x} ${y}h1v1h-1z` : "")))
    .join("");
  return { path, size: modules.length };
}
