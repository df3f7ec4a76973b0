import { type KeyboardEvent, useRef, useState } from "react";
import type { SeenValue } from "../../../shared/session/event.ts";
import { deliveredCues, type SessionState } from "../../../shared/session/state.ts";
import { useTell } from "../../api/queries.ts";
import type { LiveSession } from "../../live/use-live-session.ts";
import { Button } from "../../parts/button.tsx";
import { Notice } from "../../parts/notice.tsx";
import { Problem } from "../../parts/problem.tsx";
import { SheetBox } from "../../parts/sheet/sheet-box.tsx";
import { type Place, placeAfter } from "../../parts/sheet/sheet-keys.ts";
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

/**
 * One observer's printed sheet, typed in: a row a student, a box a cue. After each key the hand is at the
 * next cue, in the row of the student whose turn it was, so a sheet is typed as it is read.
 */
export function ObservedGrid({ live, observer }: { live: LiveSession; observer: 1 | 2 }) {
  const say = useSay();
  const formats = useFormats();
  const grid = useRef<HTMLTableElement>(null);
  const cues = deliveredCues(live.state);
  const students = observedStudents(live);
  const turns = cues.map((cue) => students.findIndex(({ id }) => id === turnAt(live, cue)?.id));
  const saved = savedBoxes(live.state, observer);
  const [draft, setDraft] = useState(emptyDraft);
  const [place, setPlace] = useState<Place>({ row: Math.max(0, turns[0] ?? 0), box: 1 });
  const save = useTell((api, marks: ReturnType<typeof unsavedBoxes>) =>
    api.records.saveObserved({ sessionId: live.session.id, observer, marks }),
  );
  const unsaved = unsavedBoxes(draft, saved);
  const saveAll = (now: ObservedDraft) => {
    const marks = unsavedBoxes(now, saved);
    if (marks.length > 0) save.mutate(marks);
  };
  useSaveAtRest(draft, unsaved.length > 0, () => saveAll(draft));
  if (cues.length === 0) return <Notice>{say("observe.noLooks")}</Notice>;

  const keyAt = ({ row, box }: Place) => boxKey(students[row]?.id ?? "", cues[box - 1] ?? 0);
  const moveTo = (next: Place) => {
    setPlace(next);
    grid.current?.querySelector<HTMLElement>(`[data-place="${next.row}/${next.box}"]`)?.focus();
  };
  const toNextTurn = () => {
    if (place.box >= cues.length) return;
    moveTo({ row: Math.max(0, turns[place.box] ?? place.row), box: place.box + 1 });
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (!(event.target instanceof HTMLElement) || event.target.dataset.place === undefined) return;
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "Enter") {
      event.preventDefault();
      saveAll(draft);
      toNextTurn();
      return;
    }
    const next = placeAfter(event, place, students.length, cues.length);
    if (next !== null) {
      event.preventDefault();
      moveTo(next);
      return;
    }
    if (event.key === "Backspace" || event.key === "Delete") {
      event.preventDefault();
      setDraft(seenEmptied(draft, keyAt(place), saved.has(keyAt(place))));
      return;
    }
    if (event.key.length !== 1) return;
    event.preventDefault();
    const after = seenTyped(draft, keyAt(place), event.key);
    setDraft(after);
    if (!after.bad.has(keyAt(place))) toNextTurn();
  };

  const others = otherTurns(live, observer);
  const firstBad = [...draft.bad][0];
  return (
    <div className="cards">
      <p>{say("observe.sheetOf", { seed: live.session.seed })}</p>
      <p>{say("observe.sheetHelp")}</p>
      <div className="cards-scroll">
        <table
          ref={grid}
          role="grid"
          aria-label={say("observe.sheet", { observer })}
          className="cards-grid"
          onKeyDown={onKeyDown}
          onBlur={(event) => {
            if (!event.currentTarget.contains(event.relatedTarget)) saveAll(draft);
          }}
        >
          <thead>
            <tr>
              <th scope="col">{say("end.student")}</th>
              {cues.map((cue) => (
                <th key={cue} scope="col">
                  {cue}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {students.map(({ id, name }, row) => (
              <tr key={id}>
                <th scope="row">{name}</th>
                {cues.map((cue, index) => {
                  const key = boxKey(id, cue);
                  const value = draft.seen.get(key) ?? saved.get(key);
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
                      isPast={turns[index] !== row}
                      placeId={`${row}/${index + 1}`}
                      isHere={place.row === row && place.box === index + 1}
                      onFocus={() => setPlace({ row, box: index + 1 })}
                    />
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {firstBad === undefined ? null : (
        <p className="cards-problem" role="alert">
          {say("observe.badMark", { found: firstBad[1] })}
        </p>
      )}
      {others.length === 0 ? null : (
        <Notice kind="caution">
          {say("observe.sheetDiffers", {
            count: others.length,
            looks: formats.list(others.map(({ cue }) => formats.number(cue))),
            names: formats.list([...new Set(others.map(({ name }) => name))]),
          })}
        </Notice>
      )}
      <Problem error={save.error} />
      <div className="cards-foot">
        <Button
          look="main"
          isDisabled={unsaved.length === 0 || save.isPending}
          onPress={() => saveAll(draft)}
        >
          {say("act.save")}
        </Button>
        <span role="status">{say(unsaved.length > 0 ? "cards.unsaved" : "cards.allSaved")}</span>
      </div>
    </div>
  );
}

function savedBoxes(state: SessionState, observer: 1 | 2): Map<string, SeenValue> {
  const ofObserver = [...state.observed.values()].filter((each) => each.observer === observer);
  return new Map(ofObserver.map(({ studentId, cue, value }) => [boxKey(studentId, cue), value]));
}
