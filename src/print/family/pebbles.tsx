const ten = Array.from({ length: 10 }, (_, index) => index);

/** So many of ten pebbles filled in: the sentence above it, drawn. No two stones of a row are quite alike. */
export function Pebbles({ filled, label }: { filled: number; label: string }) {
  return (
    <svg className="family-pebbles" viewBox="0 0 200 20" role="img" aria-label={label}>
      {ten.map((at) => (
        <ellipse
          key={at}
          className={at < filled ? "family-pebble family-pebble-filled" : "family-pebble"}
          cx={10 + 20 * at}
          cy={10 + (at % 3) - 1}
          rx={7.5 + (at % 2)}
          ry={6.5 + ((at * 7) % 3) / 2}
        />
      ))}
    </svg>
  );
}
