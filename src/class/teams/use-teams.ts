import type { PairsState, TeamsState } from "../../../shared/api/teams.ts";
import { useAsk } from "../../api/queries.ts";
import { useSay } from "../../text/text.tsx";

/** A group's teams; undefined until known. */
export const useTeams = (groupId: string): TeamsState | undefined =>
  useAsk("teams", ["teams", groupId], (api) => api.teams.state({ groupId })).data;

/** A group's lessons in pairs; undefined until known. */
export const usePairs = (groupId: string): PairsState | undefined =>
  useAsk("teams", ["pairs", groupId], (api) => api.pairs.state({ groupId })).data;

/** Names a team by its place, from 1: its own name, or its number where it has none. */
export function useTeamName(names: readonly string[]): (team: number) => string {
  const say = useSay();
  return (team) => {
    const name = names[team - 1] ?? "";
    return name === "" ? say("teams.numbered", { team }) : name;
  };
}
