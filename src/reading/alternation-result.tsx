import { useMemo } from "react";
import type { Alternation } from "../../shared/phase/alternation.ts";
import {
  type AlternationReading,
  readAlternation,
} from "../../shared/reading/drawn/alternation-reading.ts";
import type { SessionCount } from "../../shared/record/session-count.ts";
import { useAlternations, useOpenSession } from "../api/queries.ts";
import { useVoice } from "../words/use-voice.ts";
import { DrawnResult, standardChoices } from "./drawn-result.tsx";

interface AlternationResultsProps {
  readonly groupId: string;
  /** Counts those of one student, or of all added up; asked where turns were drawn. */
  readonly sessions: () => readonly SessionCount[];
}

/** What each pair of conditions shows that took turns in a drawn order; the newest first. */
export function AlternationResults({ groupId, sessions }: AlternationResultsProps) {
  const alternations = useAlternations(groupId);
  if (alternations.length === 0) return null;
  const counted = sessions();
  return alternations
    .toReversed()
    .map((alternation) => (
      <AlternationResult key={alternation.id} alternation={alternation} sessions={counted} />
    ));
}

function AlternationResult(props: { alternation: Alternation; sessions: readonly SessionCount[] }) {
  const { say } = useVoice();
  const { alternation, sessions } = props;
  const open = useOpenSession()?.id ?? null;
  const reading = useMemo(
    () => readAlternation(alternation, sessions, open),
    [alternation, sessions, open],
  );
  const { nameA, nameB } = alternation;
  const { test } = reading;
  if (test.kind === "not-computable") {
    return test.reason === "unfinished" ? (
      <p>
        {say("designs.alternationUnfinished", {
          a: nameA,
          b: nameB,
          held: reading.held,
          sessions: reading.sessions,
        })}
      </p>
    ) : (
      <p>{say(`designs.whyAlternation.${test.reason}`, { a: nameA, b: nameB })}</p>
    );
  }
  return <Found alternation={alternation} reading={reading} test={test} />;
}

function Found(props: {
  alternation: Pick<Alternation, "nameA" | "nameB">;
  reading: AlternationReading;
  test: Extract<AlternationReading["test"], { kind: "computed" }>;
}) {
  const { say, formats } = useVoice();
  const { test, reading } = props;
  const { nameA, nameB } = props.alternation;
  const points = Math.round(100 * test.difference);
  const [higher, lower] = points >= 0 ? [nameA, nameB] : [nameB, nameA];
  return (
    <>
      <DrawnResult
        found={say("designs.alternationResult", {
          a: nameA,
          b: nameB,
          higher,
          lower,
          points: Math.abs(points),
          ways: test.ways,
          share: formats.percent(test.probability),
          p: formats.number(test.probability, 3),
        })}
        probability={test.probability}
        redrawn={reading.redrawn}
        shown={say("designs.alternationShown", { higher })}
        notShown={say("designs.alternationNotShown")}
      />
      <p>
        {say("designs.alternationStanding", {
          a: nameA,
          b: nameB,
          ofA: test.points.A,
          ofB: test.points.B,
          standard: standardChoices[reading.standard],
        })}
      </p>
    </>
  );
}
