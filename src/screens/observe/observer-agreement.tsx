import { agreementSummary } from "../../../shared/agreement/agreement-summary.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { More } from "../../parts/more.tsx";
import { useFormats, useSay } from "../../text/text.tsx";
import { agreementRows } from "../../words/agreement-rows.ts";
import { observerPairs } from "./observer-pairs.ts";

/** How well two observers of one session agree: a sentence and what to do; the figures one click deeper. */
export function ObserverAgreement({ state }: { state: SessionState }) {
  const say = useSay();
  const formats = useFormats();
  const pairs = observerPairs(state);
  if (pairs.length === 0) {
    return (
      <div className="observe-agreement">
        <h3>{say("observe.agreement")}</h3>
        <p>{say("observe.agreement.none")}</p>
      </div>
    );
  }
  const summary = agreementSummary(pairs);
  const { percent, level, mcNemar } = summary;
  return (
    <div className="observe-agreement">
      <h3>{say("observe.agreement")}</h3>
      {percent.kind === "computed" ? (
        <p>
          {say("observe.agreement.share", {
            matching: percent.matching,
            compared: percent.compared,
            share: formats.percent(percent.value),
            low: formats.percent(percent.interval.lower),
            high: formats.percent(percent.interval.upper),
          })}{" "}
          {say(`observe.agreement.${level}`)}
        </p>
      ) : (
        <p>{say("observe.agreement.blank")}</p>
      )}
      {percent.kind === "computed" ? (
        <>
          <p>{say(`observe.direction.${mcNemar.direction}`)}</p>
          <More label={say("observe.figures")}>
            <table className="today-recent" aria-label={say("observe.figures")}>
              <tbody>
                {agreementRows({ say, formats }, summary, "observe.cells").map(
                  ({ name, value }) => (
                    <tr key={name}>
                      <th scope="row">{name}</th>
                      <td>{value}</td>
                    </tr>
                  ),
                )}
              </tbody>
            </table>
          </More>
        </>
      ) : null}
    </div>
  );
}
