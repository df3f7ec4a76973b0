import type { ReactNode } from "react";
import "./more.css";

interface MoreProps {
  /** What opening it shows. */
  label: ReactNode;
  children: ReactNode;
  isOpenAtFirst?: boolean;
  /** Told whenever it opens or closes. */
  onOpenChange?: (isOpen: boolean) => void;
  className?: string;
}

/** What only some want to see, closed until asked for: the app's one disclosure. */
export function More({ label, children, isOpenAtFirst, onOpenChange, className }: MoreProps) {
  return (
    <details
      className={className === undefined ? "more" : `more ${className}`}
      open={isOpenAtFirst}
      onToggle={(event) => onOpenChange?.(event.currentTarget.open)}
    >
      <summary className="more-label">{label}</summary>
      <div className="more-content">{children}</div>
    </details>
  );
}
