import { qrPath } from "./qr-path.ts";

/** A QR code: the modules come from a library, the drawing is ours. */
export function QrDrawing({ text, label }: { text: string; label: string }) {
  const { path, size } = qrPath(text);
  return (
    <svg className="seat-slip-qr" viewBox={`0 0 ${size} ${size}`} role="img" aria-label={label}>
      <path d={path} />
    </svg>
  );
}
