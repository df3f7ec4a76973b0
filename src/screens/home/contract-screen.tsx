import { useState } from "react";
import { Link } from "react-router";
import type { ContractWithDays } from "../../../shared/api/contracts.ts";
import { type AgreedPage, standsFor } from "../../../shared/home/agreed.ts";
import { contractTally } from "../../../shared/home/contract.ts";
import type { GroupCounts } from "../../../shared/record/group-counts.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { useAsk, useTell } from "../../api/queries.ts";
import { termsShown } from "../../class/home/terms-shown.ts";
import { useContractWords } from "../../class/home/use-contract-words.ts";
import { usePointsShown } from "../../class/points/use-points.ts";
import { Button } from "../../parts/button.tsx";
import { More } from "../../parts/more.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Page, Section } from "../../parts/page.tsx";
import { Problem } from "../../parts/problem.tsx";
import { isFormKept } from "../../parts/sheet/use-kept-form.ts";
import { useGroupCounts } from "../../reading/use-reading.ts";
import { useFormats, useSay } from "../../text/text.tsx";
import { ContractForm, contractForm } from "./contract-form.tsx";
import { MatchNote } from "./match-note.tsx";
import { StudentPage } from "./student-page.tsx";
import { useNextStep } from "./use-next-step.ts";

/** One student's contract: what was agreed, how its days went, and the next one. */
export function ContractScreen() {
  const say = useSay();
  return (
    <StudentPage>
      {({ student, agreed, today, back }) => (
        <Page
          title={say("contract.title", { name: student.name })}
          back={back}
          lead={say("contract.lead", { name: student.name })}
          actions={<PrintLink student={student} />}
        >
          <Contracts student={student} agreed={agreed} today={today} />
          <p className="home-help">{say("contract.caution")}</p>
        </Page>
      )}
    </StudentPage>
  );
}

const useContracts = (studentId: string) =>
  useAsk("home", ["contracts", studentId], (api) => api.contracts.ofStudent({ studentId }));

const isCurrent = ({ contract }: ContractWithDays): boolean => contract.endedOn === null;

function PrintLink({ student }: { student: Student }) {
  const say = useSay();
  const current = (useContracts(student.id).data ?? []).find(isCurrent);
  return current === undefined ? null : (
    <Link to={`/print/contract/${student.groupId}/${student.id}`}>{say("contract.print")}</Link>
  );
}

function Contracts(props: { student: Student; agreed: AgreedPage; today: string }) {
  const { student, agreed, today } = props;
  const say = useSay();
  const contracts = useContracts(student.id);
  const counts = useGroupCounts(student.groupId);
  const [isWriting, setWriting] = useState(() => isFormKept(contractForm(student.id)));
  if (contracts.data === undefined || counts.data === undefined) {
    return <Problem error={contracts.error ?? counts.error} />;
  }
  const current = contracts.data.filter(isCurrent);
  const earlier = contracts.data.filter((each) => !isCurrent(each));
  const [newest = null] = contracts.data;
  const shared = { student, today, counts: counts.data };
  return (
    <>
      {current.map((each) => (
        <Current key={each.contract.id} {...shared} one={each} />
      ))}
      {isWriting || contracts.data.length === 0 ? (
        <Section title={say(newest === null ? "contract.write" : "contract.writeNext")}>
          <ContractForm
            {...shared}
            mayEarn={standsFor(agreed.said, "points")?.answer !== "no"}
            mayCost={standsFor(agreed.said, "taken")?.answer !== "no"}
            before={newest?.contract.terms ?? null}
            onDone={() => setWriting(false)}
            canCancel={contracts.data.length > 0}
          />
        </Section>
      ) : (
        <div>
          <Button onPress={() => setWriting(true)}>
            {say(current.length > 0 ? "contract.writeNext" : "contract.write")}
          </Button>
        </div>
      )}
      <Earlier contracts={earlier} />
    </>
  );
}

interface CurrentProps {
  student: Student;
  today: string;
  counts: GroupCounts;
  one: ContractWithDays;
}

/** The contract that holds or waits to be signed. */
function Current({ student, today, counts, one }: CurrentProps) {
  const say = useSay();
  const formats = useFormats();
  const words = useContractWords();
  const { contract, days } = one;
  const { signedOn } = contract;
  const showsPoints = usePointsShown(student.groupId);
  const terms = termsShown(contract.terms, showsPoints);
  const { id } = contract;
  const sign = useTell((api) => api.contracts.sign({ id }));
  const end = useTell((api) => api.contracts.end({ id }));
  const close = useTell((api) => api.contracts.closeDay({ id, day: today }));
  const isOpenToday = days.some(({ day, closed }) => day === today && !closed);
  return (
    <Section title={say("contract.now")}>
      <p className="home-goal">{words.goal(terms.goal, student.name)}</p>
      <p>
        {words.earns(terms)} {say("contract.costLine", { cost: terms.cost })}
      </p>
      <p>
        {say("contract.checkedLine", {
          who: terms.checkedBy,
          from: formats.fullDay(contract.fromDay),
          review: formats.fullDay(contract.reviewOn),
        })}
      </p>
      {signedOn === null ? (
        <>
          <p>{say("contract.unsigned")}</p>
          <div className="home-acts">
            <Button look="main" isDisabled={sign.isPending} onPress={() => sign.mutate(undefined)}>
              {say("contract.sign")}
            </Button>
            <Button isDisabled={end.isPending} onPress={() => end.mutate(undefined)}>
              {say("contract.saidNo")}
            </Button>
            <span className="home-help">{say("contract.saidNoHelp")}</span>
          </div>
        </>
      ) : (
        <>
          <MatchNote goal={terms.goal} counts={counts} studentId={student.id} />
          <Review student={student} today={today} counts={counts} one={one} />
          <Days one={one} showsPoints={showsPoints} />
          <div className="home-acts">
            {isOpenToday ? (
              <>
                <Button
                  look="main"
                  isDisabled={close.isPending}
                  onPress={() => close.mutate(undefined)}
                >
                  {say("contract.close")}
                </Button>
                <span className="home-help">{say("contract.closeHelp")}</span>
              </>
            ) : null}
            <Button look="quiet" isDisabled={end.isPending} onPress={() => end.mutate(undefined)}>
              {say("contract.end")}
            </Button>
          </div>
        </>
      )}
      <Problem error={sign.error ?? end.error ?? close.error} />
    </Section>
  );
}

const tallyOf = ({ days }: Pick<ContractWithDays, "days">) => {
  const tally = contractTally(days.map(({ outcome }) => outcome));
  return { ...tally, counted: tally.met + tally.notYet };
};

/** On its day: how often it was met, and what comes next, as it is said to the child. */
function Review({ student, today, counts, one }: CurrentProps) {
  const say = useSay();
  const formats = useFormats();
  const { terms, reviewOn } = one.contract;
  const next = useNextStep(counts, student.id, terms.goal);
  if (reviewOn > today) return null;
  const { met, counted } = tallyOf(one);
  return (
    <Notice title={say("contract.reviewNow")}>
      <p>
        {next === null
          ? say("contract.nextNone")
          : say("contract.childLine", { met, counted, percent: formats.percent(next) })}
      </p>
    </Notice>
  );
}

/** Day by day, newest first: met, not yet, or no data. */
function Days({ one, showsPoints }: { one: ContractWithDays; showsPoints: boolean }) {
  const say = useSay();
  const formats = useFormats();
  const { days } = one;
  const { met, counted, noData } = tallyOf(one);
  if (days.length === 0) return <p>{say("contract.noDays")}</p>;
  return (
    <>
      <p>{say("contract.days", { met, counted, noData })}</p>
      <table className="home-days" aria-label={say("contract.outcome")}>
        <thead>
          <tr>
            <th scope="col">{say("contract.day")}</th>
            <th scope="col">{say("contract.outcome")}</th>
            {showsPoints ? <th scope="col">{say("contract.points")}</th> : null}
          </tr>
        </thead>
        <tbody>
          {days.toReversed().map(({ day, outcome, closed, leftOut, gained, cost }) => (
            <tr key={day}>
              <th scope="row">{formats.day(day)}</th>
              <td>
                {leftOut
                  ? say("contract.outcomeLeftOut", {
                      outcome: say(`contract.outcome.${outcome}`),
                    })
                  : say(`contract.outcome.${outcome}`)}
              </td>
              {showsPoints ? (
                <td>{closed ? formats.number(gained - cost) : say("contract.dayOpen")}</td>
              ) : null}
            </tr>
          ))}
        </tbody>
      </table>
      {days.some(({ leftOut }) => leftOut) ? (
        <p className="home-help">
          {say("contract.leftOutHelp", { points: showsPoints ? "yes" : "no" })}
        </p>
      ) : null}
    </>
  );
}

function Earlier({ contracts }: { contracts: readonly ContractWithDays[] }) {
  const say = useSay();
  const formats = useFormats();
  if (contracts.length === 0) return null;
  return (
    <More label={say("contract.earlier", { count: contracts.length })}>
      <ul className="home-history">
        {contracts.map((one) => {
          const { id, fromDay, endedOn, signedOn } = one.contract;
          const from = formats.fullDay(fromDay);
          const { met, counted } = tallyOf(one);
          return (
            <li key={id}>
              {signedOn === null || endedOn === null
                ? say("contract.neverSigned", { from })
                : say("contract.earlierLine", {
                    from,
                    to: formats.fullDay(endedOn),
                    met,
                    counted,
                  })}
            </li>
          );
        })}
      </ul>
    </More>
  );
}
