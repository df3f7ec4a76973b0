import { usePlans } from "../../api/queries.ts";

/** Where a group's program stands, as far as advice needs it. */
export interface ProgramPlace {
  readonly goal: number;
  readonly stepMeansSeconds: readonly number[];
  readonly place: number;
  readonly pointsPaid: boolean;
  /** First day at this place. */
  readonly placeSince: string;
}

/** The usual program: hold 80 %, and thin the cues from two minutes to ten. Common practice, no source. */
export const usualProgram: ProgramPlace = {
  goal: 0.8,
  stepMeansSeconds: [120, 180, 300, 600],
  place: 0,
  pointsPaid: true,
  placeSince: "0001-01-01",
};

export function useProgram(groupId: string): ProgramPlace {
  usePlans(groupId);
  return usualProgram;
}
