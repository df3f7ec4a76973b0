import { useState } from "react";
import type { Phase } from "../../../../shared/phase/phase.ts";
import { staggerSize } from "../../../../shared/reading/drawn/drawn-stagger.ts";
import { drawDay } from "../../../../shared/reading/drawn/drawn-start.ts";
import type { GroupReading } from "../../../../shared/reading/group-reading.ts";
import type { GroupCounts } from "../../../../shared/record/group-counts.ts";
import { useTell } from "../../../api/queries.ts";
import { Button } from "../../../parts/button.tsx";
import { Dialog } from "../../../parts/dialog.tsx";
import { Menu } from "../../../parts/menu.tsx";
import { Section } from "../../../parts/page.tsx";
import { Problem } from "../../../parts/problem.tsx";
import { useVoice } from "../../../words/use-voice.ts";
import { wordPhase } from "../../../words/words.ts";
import { AlternationForm } from "./alternation-form.tsx";
import { AlternationList } from "./alternation-list.tsx";
import { PhaseForm } from "./phase-form.tsx";
import { StaggerForm } from "./stagger-form.tsx";
import { WithdrawalForm } from "./withdrawal-form.tsx";

interface PhasesProps {
  readonly counts: GroupCounts;
  readonly readiness: GroupReading["readiness"];
}

/** What can be drawn to show cause; each has a form of its own. */
type Design = "stagger" | "withdrawal" | "alternation";

/** The stretches of days that are compared: look, add, change, remove. */
export function PhasesSection({ counts, readiness }: PhasesProps) {
  const { say } = useVoice();
  const [editing, setEditing] = useState<Phase | "new" | Design | null>(null);
  const ordered = counts.phases.toSorted((a, b) => (a.startsOn < b.startsOn ? -1 : 1));
  const close = () => setEditing(null);
  const designs: readonly Design[] = ["stagger", "withdrawal", "alternation"];
  const possible = designs.filter(
    (design) => design !== "stagger" || counts.students.length >= staggerSize.fewest,
  );
  return (
    <Section
      title={say("phases.title")}
      actions={
        editing === null ? (
          <>
            <Menu
              isWorded
              label={say("designs.draws")}
              entries={possible.map((design) => ({
                id: design,
                label: say(`designs.${design}`),
                onPress: () => setEditing(design),
              }))}
            />
            <Button onPress={() => setEditing("new")}>{say("phases.add")}</Button>
          </>
        ) : undefined
      }
    >
      <p className="progress-facts">{say("phases.help")}</p>
      {readiness === null ? null : <Readiness readiness={readiness} />}
      {ordered.length === 0 ? null : (
        <PhaseTable phases={ordered} counts={counts} onChange={setEditing} />
      )}
      <AlternationList groupId={counts.group.id} />
      {editing === "stagger" ? <StaggerForm counts={counts} onDone={close} /> : null}
      {editing === "withdrawal" ? <WithdrawalForm counts={counts} onDone={close} /> : null}
      {editing === "alternation" ? (
        <AlternationForm groupId={counts.group.id} onDone={close} />
      ) : null}
      {editing === "new" ? <PhaseForm phase={null} counts={counts} onDone={close} /> : null}
      {typeof editing === "object" && editing !== null ? (
        <PhaseForm key={editing.id} phase={editing} counts={counts} onDone={close} />
      ) : null}
    </Section>
  );
}

/** Whether the baseline suffices to begin: enough points, and not rising by itself. */
function Readiness({ readiness }: { readiness: NonNullable<GroupReading["readiness"]> }) {
  const { say } = useVoice();
  const { baseline } = readiness;
  return (
    <p>
      <strong>{say(`readiness.${baseline.decision}`)}</strong>{" "}
      {say(`readiness.reason.${baseline.reason}`, {
        points: baseline.points,
        fewest: baseline.missingFromFewest,
        wanted: baseline.missingFromWanted,
        rise: Math.round(100 * baseline.rise),
      })}
    </p>
  );
}

function PhaseTable(props: {
  phases: readonly Phase[];
  counts: GroupCounts;
  onChange: (phase: Phase) => void;
}) {
  const voice = useVoice();
  const { say, formats } = voice;
  const [removing, setRemoving] = useState<Phase | null>(null);
  const remove = useTell((api, id: string) => api.phases.remove({ id }));
  const nameOf = (studentId: string | null) =>
    studentId === null
      ? say("phases.everybody")
      : (props.counts.students.find(({ id }) => id === studentId)?.name ?? "");
  return (
    <>
      <table className="progress-table" aria-label={say("phases.title")}>
        <thead>
          <tr>
            <th scope="col">{say("phases.firstDay")}</th>
            <th scope="col">{say("stat.phase")}</th>
            <th scope="col">{say("phases.who")}</th>
            <th scope="col">
              <span className="only-for-readers">{say("phases.actions")}</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {props.phases.map((phase) => (
            <tr key={phase.id}>
              <th scope="row">
                {formats.day(phase.startsOn)}
                <Drawn phase={phase} />
              </th>
              <td>
                {wordPhase(voice, phase)}
                <ProbeDays phase={phase} />
              </td>
              <td>{nameOf(phase.studentId)}</td>
              <td>
                <Button
                  look="quiet"
                  onPress={() => props.onChange(phase)}
                  aria-label={say("phases.changeNamed", { name: wordPhase(voice, phase) })}
                >
                  {say("phases.change")}
                </Button>
                <Button
                  look="quiet"
                  onPress={() => setRemoving(phase)}
                  aria-label={say("phases.removeNamed", { name: wordPhase(voice, phase) })}
                >
                  {say("act.remove")}
                </Button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <Problem error={remove.error} />
      <Dialog
        isAlert
        isOpen={removing !== null}
        onClose={() => setRemoving(null)}
        title={say("phases.removeTitle")}
        actions={
          <>
            <Button onPress={() => setRemoving(null)}>{say("act.cancel")}</Button>
            <Button
              look="main"
              onPress={() => {
                if (removing !== null) remove.mutate(removing.id);
                setRemoving(null);
              }}
            >
              {say("act.remove")}
            </Button>
          </>
        }
      >
        <p>{say("phases.removeHelp")}</p>
      </Dialog>
    </>
  );
}

/** That a first day was drawn, and how; or that it was moved after the draw. */
function Drawn({ phase: { draw, startsOn } }: { phase: Phase }) {
  const { say, formats } = useVoice();
  if (draw === null) return null;
  return (
    <div className="progress-facts">
      {say(drawDay(draw) === startsOn ? "phases.drawn" : "phases.drawnMoved", {
        from: formats.shortDay(draw.from),
        to: formats.shortDay(draw.to),
        seed: draw.seed,
        times: draw.times,
      })}
    </div>
  );
}

/** For the teacher alone: on a day that students knew of, they would be ready. */
function ProbeDays({ phase: { probes } }: { phase: Phase }) {
  const { say, formats } = useVoice();
  if (probes === null) return null;
  const days = probes.days.map(formats.shortDay).join(", ");
  return <div className="progress-facts">{say("phases.probes", { days, seed: probes.seed })}</div>;
}
