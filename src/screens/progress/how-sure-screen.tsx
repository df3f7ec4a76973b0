import { useMemo } from "react";
import { Link, useParams } from "react-router";
import type { HowSure, SteadyErrors } from "../../../shared/reading/how-sure/how-sure.ts";
import {
  type HowSurePlan,
  howSurePlan,
  isCut,
} from "../../../shared/reading/how-sure/how-sure-plan.ts";
import { Scroll } from "../../charts/scroll.tsx";
import { useHowSure } from "../../compute/use-how-sure.ts";
import { Page, Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useGroupCounts } from "../../reading/use-reading.ts";
import { useVoice } from "../../words/use-voice.ts";
import type { Voice } from "../../words/words.ts";
import { Working } from "./working.tsx";
import "./progress.css";

/** How often the sentences on progress are wrong, and what they can find, for a class's own plan. */
export function HowSureScreen() {
  const { say } = useVoice();
  const { groupId = "" } = useParams();
  const counts = useGroupCounts(groupId);
  const { data } = counts;
  const own = useMemo(() => (data === undefined ? null : howSurePlan(data)), [data]);
  const sure = useHowSure(own?.plan ?? null);
  const error = counts.error ?? sure.error;
  const group = counts.data?.group.name ?? "";
  return (
    <Page
      title={say("sure.title")}
      back={<Link to={`/progress/${groupId}`}>{group || say("nav.progress")}</Link>}
      lead={group === "" ? undefined : say("sure.lead", { group })}
    >
      {error === null ? null : <Problem error={error} />}
      {own !== null && sure.data !== undefined ? (
        <Figures own={own} found={sure.data} />
      ) : (
        <Working isDone={error !== null} />
      )}
    </Page>
  );
}

function Figures({ own, found }: { own: HowSurePlan; found: HowSure }) {
  const voice = useVoice();
  const { say, formats } = voice;
  const { plan, reach, replicates, match } = found;
  const inPoints = (share: number) => Math.round(100 * share);
  return (
    <>
      <p>
        {say("sure.plan", {
          cues: plan.cues,
          rate: formats.percent(plan.rate),
          perWeek: plan.perWeek,
          replicates,
          from: own.measured === null ? "none" : isCut(own) ? "cut" : "other",
          measured: formats.percent(own.measured ?? plan.rate),
        })}
      </p>
      <Section title={say("sure.steady")}>
        <p>{say("sure.steadyLead")}</p>
        <SteadyTable found={found} />
        <p className="progress-facts">{say("sure.alikeHelp")}</p>
        <p>
          {say("sure.readSteady", {
            usual: oneIn(mostProbable(found.usual)),
            alike: oneIn(mostProbable(found.alike)),
          })}
        </p>
        <p>
          {say("sure.match", {
            checks: match.checks,
            rate: formats.percent(plan.rate),
            good: wordCases(voice, match.good),
            thinned: wordCases(voice, match.thinned),
          })}
        </p>
      </Section>
      <Section title={say("sure.found")}>
        <p>{say("sure.foundLead")}</p>
        <FoundTable found={found} />
        <p>{say("sure.readFound")}</p>
        <p>{say("sure.planner")}</p>
      </Section>
      <Section title={say("sure.one")}>
        <p>
          {say("sure.oneText", {
            cues: plan.cues,
            session: inPoints(reach.session),
            week: inPoints(reach.week),
            perWeek: plan.perWeek,
            few: plan.cues < 10 ? "yes" : "other",
          })}
        </p>
      </Section>
      <p className="progress-facts">{say("sure.measured")}</p>
    </>
  );
}

/** Never 0 or 100 %: what no drawn student met, another may. */
function shareOf({ formats }: Voice, share: number) {
  const cases = Math.round(100 * share);
  const of = cases === 0 ? "under" : cases === 100 ? "over" : "other";
  return { of, share: formats.percent(share) } as const;
}

const wordShare = (voice: Voice, share: number): string =>
  voice.say("sure.share", shareOf(voice, share));
/** The same within a sentence: in so many of the cases. */
const wordCases = (voice: Voice, share: number): string =>
  voice.say("sure.cases", shareOf(voice, share));

/** How often a steady student is told "probably" or stronger, by what says it most often. */
const mostProbable = ({ trendAny, weekAny, phasesAny }: SteadyErrors): number =>
  Math.max(trendAny, weekAny, phasesAny);

/** One in so many; 0 for hardly any. */
const oneIn = (share: number): number => (share < 0.005 ? 0 : Math.round(1 / share));

const steadyRows = [
  "trendClear",
  "trendAny",
  "weekClear",
  "weekAny",
  "phasesClear",
  "phasesAny",
  "missed",
  "flagged",
  "thinned",
  "steppedBack",
] as const satisfies readonly (keyof SteadyErrors)[];

function SteadyTable({ found }: { found: HowSure }) {
  const voice = useVoice();
  const { say } = voice;
  return (
    <Scroll label={say("sure.steady")}>
      <table className="progress-table">
        <caption className="only-for-readers">{say("sure.steady")}</caption>
        <thead>
          <tr>
            <th scope="col">{say("sure.what")}</th>
            <th scope="col">{say("sure.usual")}</th>
            <th scope="col">{say("sure.alike")}</th>
          </tr>
        </thead>
        <tbody>
          {steadyRows.map((row) => (
            <tr key={row}>
              <th scope="row">{say(`sure.${row}`)}</th>
              <td>{wordShare(voice, found.usual[row])}</td>
              <td>{wordShare(voice, found.alike[row])}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  );
}

function FoundTable({ found }: { found: HowSure }) {
  const voice = useVoice();
  const { say, formats } = voice;
  return (
    <Scroll label={say("sure.found")}>
      <table className="progress-table">
        <caption className="only-for-readers">{say("sure.found")}</caption>
        <thead>
          <tr>
            <th scope="col">{say("sure.sessions")}</th>
            <th scope="col">{say("sure.tenPoints")}</th>
            <th scope="col">{say("sure.twentyPoints")}</th>
            <th scope="col">{say("sure.thirtyPoints")}</th>
          </tr>
        </thead>
        <tbody>
          {found.found.map((row) => (
            <tr key={row.sessions}>
              <th scope="row">{formats.number(row.sessions)}</th>
              <td>{wordShare(voice, row.tenPoints)}</td>
              <td>{wordShare(voice, row.twentyPoints)}</td>
              <td>{wordShare(voice, row.thirtyPoints)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  );
}
