import { Link } from "react-router";
import type { Contract } from "../../../shared/home/contract-terms.ts";
import { useAsk } from "../../api/queries.ts";
import { termsShown } from "../../class/home/terms-shown.ts";
import { useContractWords } from "../../class/home/use-contract-words.ts";
import { usePoints } from "../../class/points/use-points.ts";
import { useFormats, useSay } from "../../text/text.tsx";
import { PrintGap } from "../print-gap.tsx";
import { PrintPage } from "../print-page.tsx";
import { Sheet } from "../sheet.tsx";
import { PaperWords, usePaperLanguage } from "./paper-words.tsx";
import { Signatures } from "./signatures.tsx";
import { useStudentPaper } from "./use-student-paper.ts";
import "../tables.css";
import "./home-paper.css";

/** A student's contract on one sheet, to be signed by both; nothing on it says how earlier days went. */
export function ContractPaper() {
  const say = useSay();
  const languageOf = usePaperLanguage();
  const { known, error, isMissing } = useStudentPaper();
  const studentId = known?.student.id ?? null;
  const contracts = useAsk("home", ["contracts", studentId], (api) =>
    studentId === null ? Promise.resolve([]) : api.contracts.ofStudent({ studentId }),
  );
  const points = usePoints(known?.student.groupId ?? "");
  const contract = contracts.data?.find((each) => each.contract.endedOn === null)?.contract;
  if (known === undefined || contract === undefined || points === undefined) {
    const isGone = isMissing || (known !== undefined && contracts.data !== undefined);
    return <PrintGap error={error ?? contracts.error} isMissing={isGone} />;
  }
  const { student, agreed } = known;
  const title = say("contract.title", { name: student.name });
  const back = `/groups/${student.groupId}/students/${student.id}/contract`;
  return (
    <PrintPage title={title} back={<Link to={back}>{title}</Link>} fileName={title}>
      <PaperWords language={languageOf(agreed)}>
        <Sheet number={1} count={1} kind="text">
          <ContractSheet
            name={student.name}
            contract={{ ...contract, terms: termsShown(contract.terms, points.on) }}
          />
        </Sheet>
      </PaperWords>
    </PrintPage>
  );
}

function ContractSheet({ name, contract }: { name: string; contract: Contract }) {
  const say = useSay();
  const formats = useFormats();
  const words = useContractWords();
  const { terms } = contract;
  const { wording, points, earns, cost } = terms;
  const days = { from: formats.fullDay(contract.fromDay), day: formats.fullDay(contract.reviewOn) };
  return (
    <div className={`home-paper home-paper-contract home-paper-${wording}`}>
      <div className="paper-head">
        <h2>{say("contract.paper.title")}</h2>
        <p className="home-paper-for">{say(`contract.paper.${wording}.i`, { name })}</p>
      </div>
      <p className="home-paper-goal">{words.paperGoal(terms)}</p>
      {points === 0 && earns === "" ? null : (
        <div>
          <p>{say(`contract.paper.${wording}.earns`)}</p>
          <ul className="home-paper-list">
            {points > 0 ? <li>{say("contract.paper.points", { points })}</li> : null}
            {earns === "" ? null : <li>{earns}</li>}
          </ul>
        </div>
      )}
      <p>{say(`contract.paper.${wording}.cost`, { cost })}</p>
      <p>{say(`contract.paper.${wording}.who`, { who: terms.checkedBy })}</p>
      <p>{say(`contract.paper.${wording}.review`, days)}</p>
      <p className="home-paper-free">{say(`contract.paper.${wording}.no`)}</p>
      <Signatures />
    </div>
  );
}
