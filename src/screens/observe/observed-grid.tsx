import { useId, useRef, useState } from "react";
import type { SeenValue } from "../../../shared/session/event.ts";
import { deliveredCues, type SessionState } from "../../../shared/session/state.ts";
import { useTell } from "../../api/queries.ts";
import type { LiveSession } from "../../live/use-live-session.ts";
import { Notice } from "../../parts/notice.tsx";
import { Problem } from "../../parts/problem.tsx";
import { focusPlace, Sheet, type SheetKeys } from "../../parts/sheet/sheet.tsx";
import { SheetBox } from "../../parts/sheet/sheet-box.tsx";
import { SheetFoot } from "../../parts/sheet/sheet-foot.tsx";
import type { Place } from "../../parts/sheet/sheet-keys.ts";
import { useSaveAtRest } from "../../parts/sheet/use-save-at-rest.ts";
import { useFormats, useSay } from "../../text/text.tsx";
import {
  boxKey,
  emptyDraft,
  type ObservedDraft,
  seenEmptied,
  seenTyped,
  unsavedBoxes,
} from "./observed-draft.ts";
import { observedStudents, otherTurns, turnAt } from "./turns.ts";

const signs: Record<SeenValue, string> = { on: "+", off: "–", unseen: "·" };

interface ObservedProps {
  live: LiveSession;
  observer: 1 | 2;
}

/**
 * One observer's printed sheet, typed in: a row a student, a box a cue. After each key the hand is at the
 * next cue, in the row of the student whose turn it was, so a sheet is typed as it is read.
 */
export function ObservedGrid({ live, observer }: ObservedProps) {
  const say = useSay();
  const [helpId, problemId] = [useId(), useId()];
  const sheet = useObservedSheet({ live, observer });
  const { grid, cues, students, turns, place, draft } = sheet;
  if (cues.length === 0) return <Notice>{say("observe.noLooks")}</Notice>;
  const firstBad = [...draft.bad][0];
  return (
    <div className="cards">
      <p>{say("observe.sheetOf", { seed: live.session.seed })}</p>
      <p id={helpId}>{say("observe.sheetHelp")}</p>
      <Sheet
        label={say("observe.sheet", { observer })}
        helpId={helpId}
        grid={grid}
        rowCount={students.length}
        boxCount={cues.length}
        keys={sheet.keys}
        onLeave={sheet.save}
        head={
          <tr>
            <th scope="col">{say("end.student")}</th>
            {cues.map((cue) => (
              <th key={cue} scope="col">
                {cue}
              </th>
            ))}
          </tr>
        }
      >
        {students.map(({ id, name }, row) => (
          <tr key={id}>
            <th scope="row">{name}</th>
            {cues.map((cue, index) => {
              const key = boxKey(id, cue);
              const value = draft.seen.get(key) ?? sheet.saved.get(key);
              const isBad = draft.bad.has(key);
              return (
                <SheetBox
                  key={cue}
                  label={say("observe.boxLabel", {
                    name,
                    cue,
                    state: isBad ? "bad" : (value ?? "none"),
                  })}
                  text={draft.bad.get(key) ?? (value === undefined ? "" : signs[value])}
                  isBad={isBad}
                  problemId={problemId}
                  isPast={turns[index] !== row}
                  placeId={`${row}/${index + 1}`}
                  isHere={place.row === row && place.box === index + 1}
                  onFocus={() => sheet.setPlace({ row, box: index + 1 })}
                />
              );
            })}
          </tr>
        ))}
      </Sheet>
      {firstBad === undefined ? null : (
        <p id={problemId} className="cards-problem" role="alert">
          {say("observe.badMark", { found: firstBad[1] })}
        </p>
      )}
      <OtherTurns live={live} observer={observer} />
      <Problem error={sheet.error} />
      <SheetFoot
        state={say(sheet.isUnsaved ? "cards.unsaved" : "cards.allSaved")}
        onSave={sheet.save}
      />
    </div>
  );
}

/** What is typed on one observer's sheet, where the hand is, and the saving of it. */
function useObservedSheet({ live, observer }: ObservedProps) {
  const grid = useRef<HTMLTableElement>(null);
  const cues = deliveredCues(live.state);
  const students = observedStudents(live);
  const turns = cues.map((cue) => students.findIndex(({ id }) => id === turnAt(live, cue)?.id));
  const saved = savedBoxes(live.state, observer);
  const [draft, setDraft] = useState(emptyDraft);
  const [place, setPlace] = useState<Place>({ row: Math.max(0, turns[0] ?? 0), box: 1 });
  const tell = useTell((api, marks: ReturnType<typeof unsavedBoxes>) =>
    api.records.saveObserved({ sessionId: live.session.id, observer, marks }),
  );
  const isUnsaved = unsavedBoxes(draft, saved).length > 0;
  const saveAll = (now: ObservedDraft) => {
    const marks = unsavedBoxes(now, saved);
    if (marks.length > 0) tell.mutate(marks);
  };
  const save = () => saveAll(draft);
  useSaveAtRest(draft, isUnsaved, save);

  const keyAt = ({ row, box }: Place) => boxKey(students[row]?.id ?? "", cues[box - 1] ?? 0);
  const moveTo = (next: Place) => {
    setPlace(next);
    focusPlace(grid.current, next);
  };
  const toNextTurn = ({ row, box }: Place) => {
    if (box < cues.length) moveTo({ row: Math.max(0, turns[box] ?? row), box: box + 1 });
  };
  const keys: SheetKeys = {
    onMove: moveTo,
    onEnter(here) {
      save();
      toNextTurn(here);
    },
    onErase: (here) => setDraft(seenEmptied(draft, keyAt(here), saved.has(keyAt(here)))),
    onType(here, key) {
      const after = seenTyped(draft, keyAt(here), key);
      setDraft(after);
      if (!after.bad.has(keyAt(here))) toNextTurn(here);
    },
  };
  return {
    grid,
    cues,
    students,
    turns,
    saved,
    draft,
    place,
    setPlace,
    keys,
    save,
    isUnsaved,
    error: tell.error,
  };
}

/** Says which looks of this sheet were at another student than the other observer's. */
function OtherTurns({ live, observer }: ObservedProps) {
  const say = useSay();
  const formats = useFormats();
  const others = otherTurns(live, observer);
  if (others.length === 0) return null;
  return (
    <Notice kind="caution">
      {say("observe.sheetDiffers", {
        count: others.length,
        looks: formats.list(others.map(({ cue }) => formats.number(cue))),
        names: formats.list([...new Set(others.map(({ name }) => name))]),
      })}
    </Notice>
  );
}

function savedBoxes(state: SessionState, observer: 1 | 2): Map<string, SeenValue> {
  const ofObserver = [...state.observed.values()].filter((each) => each.observer === observer);
  return new Map(ofObserver.map(({ studentId, cue, value }) => [boxKey(studentId, cue), value]));
}
