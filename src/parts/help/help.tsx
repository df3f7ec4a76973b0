import { useEffect, useRef, useState } from "react";
import { useIntl } from "react-intl";
import { Link, useLocation } from "react-router";
import type { Language } from "../../text/catalogue.ts";
import { useSay } from "../../text/text.tsx";
import { Button } from "../button.tsx";
import type { HelpPage } from "./book.ts";
import { topicOf } from "./topics.ts";
import "./help.css";

/**
 * One quiet button, and the key F1: a page about the screen that is open, along its edge. It stays while
 * what it says is done, turns with the screen, and closes by the same key, by Escape or by its own button.
 */
export function Help() {
  const say = useSay();
  const { pathname } = useLocation();
  const [isOpen, setOpen] = useState(false);
  const page = useRef<HTMLElement>(null);
  const place = useRef<HTMLDivElement>(null);
  const close = () => {
    const isRead = page.current?.contains(document.activeElement) ?? false;
    setOpen(false);
    // Somebody who worked beside it goes on where they are.
    if (isRead) place.current?.querySelector("button")?.focus();
  };
  useHelpKeys(isOpen, () => setOpen(true), close);
  useEffect(() => {
    if (isOpen) page.current?.focus();
  }, [isOpen]);
  return (
    <div ref={place} className="help">
      <Button
        look="quiet"
        aria-expanded={isOpen}
        onPress={() => (isOpen ? close() : setOpen(true))}
      >
        {say("help.open")}
      </Button>
      {isOpen ? (
        <aside ref={page} tabIndex={-1} className="help-page" aria-label={say("help.open")}>
          <div className="help-close">
            <Button look="quiet" onPress={close}>
              {say("act.close")}
            </Button>
          </div>
          <Opened pathname={pathname} onLeave={close} />
        </aside>
      ) : null}
    </div>
  );
}

/** F1, in place of the browser's own help; Escape closes whatever lies above it first. */
function useHelpKeys(isOpen: boolean, open: () => void, close: () => void) {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const isHelp = event.key === "F1" && !event.repeat;
      const isLeaving = event.key === "Escape" && isOpen && !event.defaultPrevented;
      if (!isHelp && !isLeaving) return;
      event.preventDefault();
      if (isOpen) close();
      else open();
    };
    window.addEventListener("keydown", onKey);
    return () => window.removeEventListener("keydown", onKey);
  });
}

function Opened({ pathname, onLeave }: { pathname: string; onLeave: () => void }) {
  const say = useSay();
  const page = useHelpPage(pathname);
  if (page === undefined) return <p role="status">{say("wait")}</p>;
  return (
    <>
      <h2>{page.title}</h2>
      <p>{page.lead}</p>
      <ol>
        {page.steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
      <dl>
        {page.questions.map(({ ask, say: answer }) => (
          <div key={ask}>
            <dt>{ask}</dt>
            <dd>{answer}</dd>
          </div>
        ))}
      </dl>
      <p className="help-more">
        <Link to="/print/first-week" onClick={onLeave}>
          {say("help.firstWeek")}
        </Link>
      </p>
    </>
  );
}

/** The page for an address in the app's language; undefined until the book is there. */
function useHelpPage(pathname: string): HelpPage | undefined {
  const { locale } = useIntl();
  const [page, setPage] = useState<HelpPage>();
  useEffect(() => {
    let isWanted = true;
    void import("./book.ts").then(({ book }) => {
      const language: Language = locale === "es" ? "es" : "en";
      if (isWanted) setPage(book[language][topicOf(pathname)]);
    });
    return () => {
      isWanted = false;
    };
  }, [locale, pathname]);
  return page;
}
