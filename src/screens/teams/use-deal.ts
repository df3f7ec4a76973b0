import { useState } from "react";
import type { TeamsState } from "../../../shared/api/teams.ts";
import type { TeamProblem } from "../../../shared/teams/deal-teams.ts";
import { numberedRounds, roundOn } from "../../../shared/teams/kept-rounds.ts";
import { wishedPairs } from "../../../shared/teams/wishes.ts";
import { useConnection } from "../../api/context.tsx";
import { computeAside } from "../../compute/compute-line.ts";
import { announce } from "../../parts/announcer.tsx";
import { useSay } from "../../text/text.tsx";

export interface Deal {
  readonly isDealing: boolean;
  /** Why no teams were found, in the last try. */
  readonly problem: TeamProblem["reason"] | null;
  readonly error: unknown;
  readonly deal: () => void;
}

/** How many rounds are still to be dealt: the term's less those that were held; one at least. */
export function roundsToDeal({ settings, rounds, today }: TeamsState): number {
  const held = roundOn(rounds, today)?.number ?? 0;
  return Math.max(1, (settings?.rounds ?? 1) - held);
}

/** Deals a group's rounds to come in the worker, and keeps them. */
export function useDeal(groupId: string): Deal {
  const say = useSay();
  const [isDealing, setDealing] = useState(false);
  const [problem, setProblem] = useState<TeamProblem["reason"] | null>(null);
  const [error, setError] = useState<unknown>(null);
  const { api } = useConnection();

  async function dealNow(): Promise<void> {
    // As it is now: what was changed a moment ago may not be on the page yet.
    const state = await api.teams.state({ groupId });
    const roster = await api.students.list({ groupId, archived: false });
    const students = roster.flatMap(({ id }) => (state.outIds.includes(id) ? [] : id));
    const { settings, rounds, wishes, seed, deals, today } = state;
    if (settings === null) return;
    const held = roundOn(rounds, today)?.number ?? 0;
    const past = numberedRounds(
      rounds.filter(({ number }) => number <= held),
      students,
    );
    const computed = await computeAside({
      kind: "deal",
      seed,
      deals,
      wishes: {
        students: students.length,
        size: Math.min(settings.size, students.length),
        rounds: roundsToDeal(state),
        past,
        apart: wishedPairs(wishes, "apart", students),
        together: wishedPairs(wishes, "together", students),
      },
    });
    if (computed.kind !== "deal") return;
    const { dealt } = computed;
    if (dealt.kind === "problem") {
      setProblem(dealt.reason);
      return;
    }
    const named = dealt.rounds.map((round) =>
      round.map((team) => team.flatMap((at) => students[at] ?? [])),
    );
    await api.teams.deal({ groupId, deals, rounds: named });
    announce(say("teams.said.dealt"));
  }

  return {
    isDealing,
    problem,
    error,
    deal() {
      setDealing(true);
      setProblem(null);
      setError(null);
      dealNow()
        .catch(setError)
        .finally(() => setDealing(false));
    },
  };
}
