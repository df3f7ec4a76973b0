import "./tables.css";

/** A label with a line to write on. */
export function WriteLine({ label }: { label: string }) {
  return (
    <span className="write-line">
      <span>{label}</span>
      <span className="write-line-room" />
    </span>
  );
}
