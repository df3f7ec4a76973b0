import type { AgreementSummary } from "../../shared/agreement/agreement-summary.ts";
import type { MessageId } from "../text/catalogue.ts";
import type { Voice } from "./words.ts";

/**
 * All figures of an agreement, named and worded for a table.
 *
 * @param cells the message that names the four cells of the two-by-two table
 */
export function agreementRows(
  { say, formats }: Voice,
  agreement: AgreementSummary,
  cells: MessageId = "stat.cells",
) {
  const { table, percent, occurrence, nonOccurrence, offRecordedOn, kappa, ac1, mcNemar } =
    agreement;
  const share = (found: typeof occurrence | typeof nonOccurrence) =>
    found.kind === "computed" ? formats.percent(found.value) : say(`progress.why.${found.reason}`);
  return [
    {
      name: say("stat.percent"),
      value:
        percent.kind === "computed"
          ? say("stat.withInterval", {
              value: formats.percent(percent.value),
              low: formats.percent(percent.interval.lower),
              high: formats.percent(percent.interval.upper),
            })
          : say(`progress.why.${percent.reason}`),
    },
    { name: say("stat.occurrence"), value: share(occurrence) },
    { name: say("stat.nonOccurrence"), value: share(nonOccurrence) },
    {
      name: say("stat.offRecordedOn"),
      value:
        offRecordedOn.kind === "computed"
          ? say("stat.offRecordedOnValue", {
              recordedOn: offRecordedOn.recordedOn,
              seenOff: offRecordedOn.seenOff,
              value: formats.percent(offRecordedOn.value),
              low: formats.percent(offRecordedOn.interval.lower),
              high: formats.percent(offRecordedOn.interval.upper),
            })
          : say(`progress.why.${offRecordedOn.reason}`),
    },
    { name: say("stat.kappa"), value: wordKappa({ say, formats }, kappa) },
    {
      name: say("stat.ac1"),
      value:
        ac1.kind === "computed"
          ? say("stat.ac1Value", {
              value: formats.number(ac1.value, 2),
              error: formats.number(ac1.standardError, 2),
            })
          : say(`progress.why.${ac1.reason}`),
    },
    {
      name: say(cells),
      value: say("stat.cellsValue", {
        bothOn: table.bothOn,
        firstOnly: table.firstOnly,
        secondOnly: table.secondOnly,
        bothOff: table.bothOff,
      }),
    },
    {
      name: say("stat.mcNemar"),
      value: say("stat.mcNemarValue", {
        disagreements: mcNemar.disagreements,
        p: formats.number(mcNemar.probability, 3),
        oneSided: formats.number(mcNemar.oneSidedProbability, 3),
      }),
    },
    {
      name: say("stat.leftOut"),
      value: formats.number(
        table.leftOut.firstBlank + table.leftOut.secondBlank + table.leftOut.bothBlank,
      ),
    },
  ];
}

function wordKappa({ say, formats }: Voice, kappa: AgreementSummary["kappa"]): string {
  if (kappa.kind === "not-computable") return say(`progress.why.${kappa.reason}`);
  const value = formats.number(kappa.value, 2);
  const adjusted = formats.number(kappa.adjusted, 2);
  if (kappa.standardError === null) return say("stat.kappaConstant", { value, adjusted });
  return say("stat.kappaValue", {
    value,
    error: formats.number(kappa.standardError, 2),
    adjusted,
  });
}
