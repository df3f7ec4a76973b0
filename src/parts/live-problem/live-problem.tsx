import { createPortal } from "react-dom";
import { Problem } from "../problem.tsx";
import "./live-problem.css";

const placeId = "live-problem";

/** The place in the spine where nothing is pressed, kept for what could not be done in a running session. */
export function LiveProblemPlace() {
  return <div id={placeId} className="live-problem" />;
}

/**
 * Says why something could not be done while a session runs: in the spine, where it moves nothing and lies over
 * nothing that somebody may be pressing. In a window without one it lies over the foot of the page and lets
 * presses through.
 */
export function LiveProblem({ error }: { error: unknown }) {
  if (error === null || error === undefined) return null;
  const place = document.getElementById(placeId);
  const problem = <Problem error={error} />;
  if (place !== null) return createPortal(problem, place);
  return <div className="live-problem live-problem-alone">{problem}</div>;
}
