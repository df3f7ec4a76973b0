import { type ReactNode, useEffect } from "react";
import "./page.css";

interface PageProps {
  title: string;
  /** A line under the title. */
  lead?: ReactNode;
  /** What can be done on this page, beside the title. */
  actions?: ReactNode;
  /** A link back, above the title. */
  back?: ReactNode;
  children: ReactNode;
}

/** One page of the notebook: a title, what to do, and the content. */
export function Page({ title, lead, actions, back, children }: PageProps) {
  useEffect(() => {
    document.title = `${title} · Pebblechime`;
  }, [title]);
  return (
    <div className="page">
      <header className="page-head">
        <div>
          {back === undefined ? null : <div className="page-back">{back}</div>}
          <h1>{title}</h1>
          {lead === undefined ? null : <p className="page-lead">{lead}</p>}
        </div>
        {actions === undefined ? null : <div className="page-actions">{actions}</div>}
      </header>
      {children}
    </div>
  );
}

/** A part of a page with a heading of its own. */
export function Section({
  title,
  children,
  actions,
}: {
  title: string;
  children: ReactNode;
  actions?: ReactNode;
}) {
  return (
    <section className="page-section">
      <div className="page-section-head">
        <h2>{title}</h2>
        {actions === undefined ? null : <div className="page-actions">{actions}</div>}
      </div>
      {children}
    </section>
  );
}

/** Two halves beside one another in a wide window, otherwise the second below the first. */
export function Columns({ left, right }: { left: ReactNode; right: ReactNode }) {
  return (
    <div className="page-columns">
      <div className="page-column">{left}</div>
      <div className="page-column">{right}</div>
    </div>
  );
}
