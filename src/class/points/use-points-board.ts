import type { PointsBoard } from "../../../shared/api/points.ts";
import { useAsk } from "../../api/queries.ts";

/** What of points may stand before the class, and when that was asked, in ms since 1970 UTC. */
export function usePointsBoard(): { board: PointsBoard | null; askedMs: number } {
  const asked = useAsk("points", ["board"], (api) => api.points.board());
  return { board: asked.data ?? null, askedMs: asked.dataUpdatedAt };
}
