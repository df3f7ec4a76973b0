import { useCallback, useMemo, useState } from "react";
import type { Standing } from "../../../shared/api/points.ts";
import { takesPoints } from "../../../shared/plan/earning.ts";
import { lowestStanding, mustGiveFirst } from "../../../shared/points/guard.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import {
  type GivenReason,
  givenReasons,
  type TakenReason,
  takenReasons,
} from "../../../shared/session/event.ts";
import { useAsk, useSettings, useTell } from "../../api/queries.ts";
import { usePointsAllowed } from "../../class/points/use-points.ts";
import { Button } from "../../parts/button.tsx";
import { Pick } from "../../parts/field.tsx";
import { Panel } from "../../parts/panel.tsx";
import { Problem, wordProblem } from "../../parts/problem.tsx";
import { SteadyButton } from "../../parts/steady/steady-button.tsx";
import { useFormats, useSay } from "../../text/text.tsx";
import type { LiveSession } from "../use-live-session.ts";
import { mostPinned, usePointKeys } from "./use-point-keys.ts";
import "./points-strip.css";

/** What has just appeared takes no press for so long, in ms. */
const newRestMs = 600;

interface Press {
  readonly kind: "give" | "take";
  readonly student: Student;
  readonly amount: number;
  readonly press: string;
}

/**
 * Points given and taken while teaching; for the adult's eyes alone, and absent where the session earns
 * nothing.
 */
export function PointsStrip({ live }: { live: LiveSession }) {
  const isAllowed = usePointsAllowed();
  if (!isAllowed || live.session.plan.earning.kind === "none") return null;
  return <EarningStrip live={live} />;
}

function EarningStrip({ live }: { live: LiveSession }) {
  const say = useSay();
  const { session, students, state } = live;
  const sessionId = session.id;
  const [last, setLast] = useState<Press | null>(null);
  const [why, setWhy] = useState<GivenReason>("kept-going");
  const [whyTaken, setWhyTaken] = useState<TakenReason>("disturbed");
  const [pinnedIds, setPinned] = usePinned(session.groupId);
  const standings = useAsk("points", ["standings", sessionId], (api) =>
    api.points.standings({ sessionId }),
  ).data;
  const here = useMemo(() => {
    // Who was agreed to earn no points has no standing, and no place here.
    const paid = new Set(standings?.map(({ studentId }) => studentId));
    return students.filter(({ id }) => paid.has(id) && !state.setAside.has(id));
  }, [students, standings, state]);
  const press = useTell((api, { kind, student, amount, press: id }: Press) => {
    const asked = { sessionId, studentId: student.id, amount, press: id };
    return kind === "give"
      ? api.points.give({ ...asked, why })
      : api.points.take({ ...asked, why: whyTaken });
  });
  const undo = useTell((api, { student, press: id }: Pick<Press, "student" | "press">) =>
    api.points.undoPress({ sessionId, studentId: student.id, press: id }),
  );
  const [refusals, setRefusals] = useState(0);
  const { mutate } = press;
  const ask = useCallback(
    (kind: Press["kind"], studentId: string, amount: number) => {
      const student = students.find(({ id }) => id === studentId);
      if (student === undefined) return;
      const made = { kind, student, amount, press: crypto.randomUUID() };
      mutate(made, {
        onSuccess: () => setLast(made),
        onError: () => setRefusals((now) => (kind === "take" ? now + 1 : now)),
      });
    },
    [students, mutate],
  );
  const takes = takesPoints(session.plan.earning);
  const pinned = useMemo(
    () => pinnedIds.filter((id) => here.some((student) => student.id === id)),
    [pinnedIds, here],
  );
  const isOn = useSettings()?.singleKeys !== false && state.status === "running";
  usePointKeys({
    pinned,
    isOn,
    onGive: (id) => ask("give", id, 1),
    onTake: takes ? (id) => ask("take", id, 1) : null,
  });
  return (
    <div className="points-strip" role="group" aria-label={say("points.strip")}>
      <span className="strip-name">{say("points.strip")}</span>
      {pinned.map((id, place) => (
        <Button key={id} onPress={() => ask("give", id, 1)}>
          {say("points.giveOne", { name: nameOf(students, id) })} <kbd>{place + 1}</kbd>
        </Button>
      ))}
      <GivePanel
        here={here}
        why={why}
        onWhy={setWhy}
        pinned={pinnedIds}
        onPin={setPinned}
        takes={takes}
        onGive={(id, amount) => ask("give", id, amount)}
      />
      {takes ? (
        <TakePanel
          live={live}
          here={here}
          why={whyTaken}
          onWhy={setWhyTaken}
          standings={standings ?? []}
          refused={press.variables?.kind === "take" ? press.error : null}
          leavesTaking={refusals >= manyRefusals}
          onTake={(id) => ask("take", id, 1)}
        />
      ) : null}
      <div className="points-line">
        <LastPress
          last={last}
          isUndone={undo.data !== undefined && undo.variables === last}
          error={press.error ?? undo.error}
          leavesTaking={refusals >= manyRefusals && press.variables?.kind === "take"}
          tooMany={tooManyTaken(students, standings ?? [])}
          onUndo={(made) => undo.mutate(made)}
        />
        <Lowest standings={standings ?? []} />
      </div>
    </div>
  );
}

/** Refused takes in a session after which taking is better left for today. */
const manyRefusals = 2;

/** A student from whom more was taken than half of what was given, as a correction may bring about. */
interface TooManyTaken {
  readonly student: Student;
  /** The newest take, while it can be taken back. */
  readonly press: string | null;
}

function tooManyTaken(
  students: readonly Student[],
  standings: readonly Standing[],
): TooManyTaken | null {
  const broken = standings.find(mustGiveFirst);
  const student = students.find(({ id }) => id === broken?.studentId);
  return broken === undefined || student === undefined
    ? null
    : { student, press: broken.newestTake };
}

/** What the last press did, with undo, or why it was refused; its line is always there, so nothing moves. */
function LastPress(props: {
  last: Press | null;
  isUndone: boolean;
  error: unknown;
  leavesTaking: boolean;
  tooMany: TooManyTaken | null;
  onUndo: (press: Pick<Press, "student" | "press">) => void;
}) {
  const say = useSay();
  const { last, isUndone, error, leavesTaking, tooMany, onUndo } = props;
  if (error !== null && error !== undefined) {
    return (
      <p className="points-last points-refused" role="alert">
        {wordProblem(say, error)} {leavesTaking ? say("points.leaveTaking") : ""}
      </p>
    );
  }
  if (tooMany !== null) {
    const { student, press } = tooMany;
    return (
      <p className="points-last points-refused" role="status">
        {say("points.tooMany", { name: student.name })}
        {press === null ? null : (
          <SteadyButton
            look="quiet"
            shown={press}
            restMs={newRestMs}
            onPress={() => onUndo({ student, press })}
          >
            {say("points.takeBack", { name: student.name })}
          </SteadyButton>
        )}
      </p>
    );
  }
  return (
    <p className="points-last" role="status">
      {last === null ? null : (
        <>
          {say(isUndone ? "points.undone" : `points.last.${last.kind}`, {
            name: last.student.name,
            amount: last.amount,
          })}
          {isUndone ? null : (
            <Button look="quiet" onPress={() => onUndo(last)}>
              {say("act.undo")}
            </Button>
          )}
        </>
      )}
    </p>
  );
}

/** The standing of the student who is losing most; for the adult alone, and of nobody else. */
function Lowest({ standings }: { standings: readonly Standing[] }) {
  const say = useSay();
  const formats = useFormats();
  const lowest = lowestStanding(standings);
  if (lowest === null) return null;
  return (
    <span className="points-note">
      {say(lowest.warns ? "points.lowestWarns" : "points.lowest", {
        ratio: formats.number(lowest.ratio, 1),
      })}
    </span>
  );
}

const nameOf = (students: readonly Student[], id: string): string =>
  students.find((student) => student.id === id)?.name ?? "";

function GivePanel(props: {
  here: readonly Student[];
  why: GivenReason;
  onWhy: (why: GivenReason) => void;
  pinned: readonly string[];
  onPin: (ids: readonly string[]) => void;
  /** Whether points can be taken too. */
  takes: boolean;
  onGive: (studentId: string, amount: number) => void;
}) {
  const say = useSay();
  const { here, why, onWhy, pinned, onPin, takes, onGive } = props;
  const [isOpen, setOpen] = useState(false);
  const toggle = (id: string) =>
    onPin(
      pinned.includes(id)
        ? pinned.filter((each) => each !== id)
        : [...pinned, id].slice(-mostPinned),
    );
  return (
    <Panel label={say("points.give")} isOpen={isOpen} onOpenChange={setOpen}>
      <div className="points-panel">
        <Pick
          label={say("points.why")}
          value={why}
          onChange={onWhy}
          choices={givenReasons.map((value) => ({ value, label: say(`points.why.${value}`) }))}
        />
        <ul className="points-names">
          {here.map(({ id, name }) => (
            <li key={id}>
              <span className="points-name">{name}</span>
              {[1, 2, 5].map((amount) => (
                <Button
                  key={amount}
                  aria-label={say("points.giveNamed", { name, amount })}
                  onPress={() => onGive(id, amount)}
                >
                  {`+${amount}`}
                </Button>
              ))}
              <Button
                look="quiet"
                className="points-toggle"
                aria-pressed={pinned.includes(id)}
                aria-label={say(pinned.includes(id) ? "points.pinnedNamed" : "points.pinNamed", {
                  name,
                })}
                onPress={() => toggle(id)}
              >
                {say(pinned.includes(id) ? "points.pinned" : "points.pin")}
              </Button>
            </li>
          ))}
        </ul>
        <p className="points-note">{say(takes ? "points.keys" : "points.keysGive")}</p>
      </div>
    </Panel>
  );
}

function TakePanel(props: {
  live: LiveSession;
  here: readonly Student[];
  why: TakenReason;
  onWhy: (why: TakenReason) => void;
  standings: readonly Standing[];
  /** Whether so much was refused that taking is better left for today. */
  leavesTaking: boolean;
  /** Why the last press was refused; null when it was not. */
  refused: unknown;
  onTake: (studentId: string) => void;
}) {
  const say = useSay();
  const { live, here, why, onWhy, standings, leavesTaking, refused, onTake } = props;
  const sessionId = live.session.id;
  const [isOpen, setOpen] = useState(false);
  const stop = useTell((api, studentId: string) => api.points.stop({ sessionId, studentId }));
  return (
    <Panel label={say("points.take")} look="quiet" isOpen={isOpen} onOpenChange={setOpen}>
      <div className="points-panel">
        {/* A refusal stands where it is looked for; the strip says it too, for the keys. */}
        <p className="points-note points-caution">
          {refused === null ? say("points.takeCaution") : wordProblem(say, refused)}{" "}
          {leavesTaking ? say("points.leaveTaking") : ""}
        </p>
        <Pick
          label={say("points.why")}
          value={why}
          onChange={onWhy}
          choices={takenReasons.map((value) => ({
            value,
            label: say(`points.whyTaken.${value}`),
          }))}
        />
        <ul className="points-names">
          {here.map(({ id, name }) => {
            const of = standings.find(({ studentId }) => studentId === id);
            return (
              <li key={id}>
                <span className="points-name">{name}</span>
                <span className="points-note">
                  {say("points.standing", { given: of?.given ?? 0, taken: of?.taken ?? 0 })}
                </span>
                <Button
                  isDisabled={of?.stopped === true}
                  aria-label={say("points.takeNamed", { name })}
                  onPress={() => onTake(id)}
                >
                  {"−1"}
                </Button>
                <Button
                  look="quiet"
                  className="points-toggle"
                  isDisabled={of?.stopped === true || stop.isPending}
                  aria-label={say(
                    of?.stopped === true ? "points.stoppedNamed" : "points.stopNamed",
                    { name },
                  )}
                  onPress={() => stop.mutate(id)}
                >
                  {say(of?.stopped === true ? "points.stopped" : "points.stop")}
                </Button>
              </li>
            );
          })}
        </ul>
        <Problem error={stop.error} />
      </div>
    </Panel>
  );
}

/** Who has a key, kept in this window so that a reload keeps it. */
function usePinned(groupId: string): [readonly string[], (ids: readonly string[]) => void] {
  const key = `points-pinned/${groupId}`;
  const [ids, setIds] = useState<readonly string[]>(() => {
    const kept = sessionStorage.getItem(key);
    return kept === null || kept === "" ? [] : kept.split(" ");
  });
  const keep = (next: readonly string[]) => {
    sessionStorage.setItem(key, next.join(" "));
    setIds(next);
  };
  return [ids, keep];
}
