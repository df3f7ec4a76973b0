import type { ReactNode } from "react";
import "./notice.css";

interface NoticeProps {
  /** `caution` is read at once by screen readers; `note` is read in turn. */
  kind?: "note" | "caution";
  title?: string;
  children: ReactNode;
}

/** A remark on the page, like a slip clipped to a notebook. */
export function Notice({ kind = "note", title, children }: NoticeProps) {
  return (
    <div className={`notice notice-${kind}`} role={kind === "caution" ? "alert" : "note"}>
      {title === undefined ? null : <strong className="notice-title">{title}</strong>}
      <div>{children}</div>
    </div>
  );
}
