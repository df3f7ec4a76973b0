import type { SeatsState } from "../../../shared/api/seats.ts";
import { useAsk } from "../../api/queries.ts";

/** A group's seats as they are now; undefined until known. */
export const useSeats = (groupId: string): SeatsState | undefined =>
  useAsk("seats", [groupId], (api) => api.seats.state({ groupId })).data;
