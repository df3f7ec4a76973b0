import { useEffect, useRef } from "react";
import { NavLink, Outlet, useLocation } from "react-router";
import { useConnection } from "../api/context.tsx";
import { useOpenSession } from "../api/queries.ts";
import { Help } from "../parts/help/help.tsx";
import { focusPage } from "../parts/keep-focus.ts";
import { LiveProblemPlace } from "../parts/live-problem/live-problem.tsx";
import { useSay } from "../text/text.tsx";
import { CareSlip } from "./care-slip.tsx";
import { PeriodReminder } from "./reminder/period-reminder.tsx";
import { SoundStateElsewhere } from "./sound-state.tsx";
import "./frame.css";

/** The notebook around every teacher's page: the spine with its sections, and the page itself. */
export function Frame() {
  const say = useSay();
  const { pathname } = useLocation();
  const main = useRef<HTMLElement>(null);
  const open = useOpenSession();

  // A new page is announced and read from its start, as a real page change would be. Without the path in the list
  // this would run once, on the first page alone.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the path is not read here; its change is what makes a new page
  useEffect(() => {
    if (main.current !== null) focusPage(main.current);
    window.scrollTo(0, 0);
  }, [pathname]);

  return (
    <div className="frame">
      <a className="frame-skip" href="#page">
        {say("app.skip")}
      </a>
      <nav className="frame-spine" aria-label={say("nav.label")}>
        <p className="frame-name">{say("app.name")}</p>
        <NavLink to="/" end>
          {say("nav.today")}
        </NavLink>
        <NavLink to="/groups">{say("nav.groups")}</NavLink>
        <NavLink to="/progress">{say("nav.progress")}</NavLink>
        <NavLink to="/settings">{say("nav.settings")}</NavLink>
        <CareSlip />
        <LiveProblemPlace />
        {open === null ? null : (
          <NavLink className="frame-live" to={`/session/${open.id}`}>
            {say(open.status === "interrupted" ? "nav.cutOff" : "nav.live")}
          </NavLink>
        )}
        <Help />
      </nav>
      <main id="page" ref={main} tabIndex={-1} className="frame-page">
        <LinkState />
        <PeriodReminder />
        <Outlet />
        <SoundStateElsewhere />
      </main>
    </div>
  );
}

/** Says when the data side does not answer; silent otherwise. */
export function LinkState() {
  const say = useSay();
  const { state } = useConnection();
  return (
    <div role="status">
      {state === "lost" ? <p className="frame-lost">{say("link.lost")}</p> : null}
    </div>
  );
}
