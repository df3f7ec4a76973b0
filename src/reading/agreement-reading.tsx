import type { AgreementSummary } from "../../shared/agreement/agreement-summary.ts";
import { recentSessions } from "../../shared/analysis/recent.ts";
import type { WeekAgreement } from "../../shared/reading/agreement-weeks.ts";
import { Scroll } from "../charts/scroll.tsx";
import { More } from "../parts/more.tsx";
import { agreementRows } from "../words/agreement-rows.ts";
import { useVoice } from "../words/use-voice.ts";
import { wordAgreement, wordOffRecordedOn } from "../words/words.ts";

interface AgreementProps {
  /** A student's or a group's. */
  readonly name: string;
  readonly agreement: AgreementSummary;
  readonly recent: AgreementSummary;
}

/** Agreement in words: how well records and checks match, which way they differ, what to do next. */
export function AgreementReading({ name, agreement, recent }: AgreementProps) {
  const voice = useVoice();
  const { say } = voice;
  const off = wordOffRecordedOn(voice, agreement);
  return (
    <>
      <p className="progress-lead">{wordAgreement(voice, agreement)}</p>
      <RecentAgreement agreement={agreement} recent={recent} />
      {agreement.percent.kind === "computed" ? (
        <>
          {off === null ? null : <p>{off}</p>}
          <p>{say(`match.direction.${agreement.mcNemar.direction}`, { name })}</p>
          <p>
            <strong>{say("match.next")}</strong> {say(`match.next.${agreement.next}`)}
          </p>
        </>
      ) : (
        <p>{say("match.next.check-more")}</p>
      )}
    </>
  );
}

/** Agreement lately, by which flags and advice go, where it rests on other checks than the whole. */
function RecentAgreement({ agreement, recent }: Omit<AgreementProps, "name">) {
  const voice = useVoice();
  if (recent.percent.kind === "not-computable") return null;
  if (agreement.percent.kind === "not-computable") return null;
  if (recent.percent.compared === agreement.percent.compared) return null;
  return (
    <p>
      <span className="progress-facts">
        {voice.say("trend.recentAgreement", { sessions: recentSessions })}
      </span>{" "}
      {wordAgreement(voice, recent)}
    </p>
  );
}

/** The figures behind the words, and school week by school week; nothing where nothing was compared. */
export function AgreementFigures(props: {
  agreement: AgreementSummary;
  weeks: readonly WeekAgreement[];
}) {
  const { say } = useVoice();
  if (props.agreement.percent.kind === "not-computable") return null;
  return (
    <More className="progress-more" label={say("progress.statistics")}>
      <AgreementTables {...props} />
    </More>
  );
}

/** Agreement by the names of its statistics, and week by week. */
export function AgreementTables(props: {
  agreement: AgreementSummary;
  weeks: readonly WeekAgreement[];
}) {
  const voice = useVoice();
  const { say } = voice;
  const { agreement, weeks } = props;
  return (
    <>
      <table className="progress-table">
        <caption>{say("stat.agreement")}</caption>
        <tbody>
          {agreementRows(voice, agreement).map(({ name, value }) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{value}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {agreement.notes.map((note) => (
        <p key={note}>{say(`match.note.${note}`)}</p>
      ))}
      <Weeks weeks={weeks} />
    </>
  );
}

function Weeks({ weeks }: { weeks: readonly WeekAgreement[] }) {
  const { say, formats } = useVoice();
  return (
    <Scroll label={say("stat.agreementByWeek")}>
      <table className="progress-table">
        <caption>{say("stat.agreementByWeek")}</caption>
        <thead>
          <tr>
            <th scope="col">{say("weeks.week")}</th>
            <th scope="col">{say("stat.matching")}</th>
            <th scope="col">{say("stat.compared")}</th>
            <th scope="col">{say("checks.share")}</th>
            <th scope="col">{say("checks.way")}</th>
          </tr>
        </thead>
        <tbody>
          {weeks.map(({ monday, summary: { percent, level, mcNemar } }) => (
            <tr key={monday}>
              <th scope="row">{formats.day(monday)}</th>
              <td>{formats.number(percent.kind === "computed" ? percent.matching : 0)}</td>
              <td>{formats.number(percent.kind === "computed" ? percent.compared : 0)}</td>
              <td>
                {percent.kind === "not-computable" || level === "too-few-checks"
                  ? say("checks.tooFew")
                  : formats.percent(percent.value)}
              </td>
              <td>{say(`checks.way.${mcNemar.direction}`)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  );
}
