import { useRef, useState } from "react";
import type { RosterRow } from "../../../shared/api/transfer.ts";
import { clashes } from "../../../shared/roster/clashes.ts";
import { type PastedNames, pastedNames } from "../../../shared/roster/pasted-names.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { longestName, mostStudents } from "../../../shared/transfer/import-limits.ts";
import { useTell } from "../../api/queries.ts";
import { picturesToGive } from "../../class/pictures/own-pictures.ts";
import { Button } from "../../parts/button.tsx";
import { TextField } from "../../parts/field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

interface AddProps {
  groupId: string;
  present: readonly Student[];
  archived: readonly Student[];
}

/** One student of the list as it will be made: its spelling may be changed, or it is left out. */
interface Draft {
  readonly name: string;
  readonly isLeftOut: boolean;
}

/**
 * Adds one student, or a whole pasted list. What was understood stands below before anything is made,
 * names that clash are decided on one by one, and one press takes it all back.
 */
export function AddStudents({ groupId, present, archived }: AddProps) {
  const say = useSay();
  const field = useRef<HTMLDivElement>(null);
  const [text, setText] = useState("");
  const [changed, setChanged] = useState<ReadonlyMap<number, Draft>>(new Map());
  const pasted = pastedNames(text);
  const drafts = pasted.names.map((name, at) => changed.get(at) ?? { name, isLeftOut: false });
  const wanted = drafts.filter(({ isLeftOut }) => !isLeftOut).map(({ name }) => name.trim());
  const taken = [...present, ...archived].map(({ name }) => name);
  const problems = problemsOf(drafts, taken);
  const tooMany = wanted.length > mostStudents;
  const add = useTell((api, rows: RosterRow[]) => api.transfer.importStudents({ groupId, rows }));
  const undo = useTell((api, importId: string) => api.transfer.undoImport({ importId }));
  const canAdd = wanted.length > 0 && !tooMany && problems.every((problem) => problem === null);

  const start = () => field.current?.querySelector("textarea")?.focus();
  const press = () => {
    if (!canAdd) return;
    undo.reset();
    add.mutate(withPictures(wanted, present), {
      onSuccess: () => {
        setText("");
        setChanged(new Map());
        start();
      },
    });
  };

  return (
    <form
      className="groups-add"
      onSubmit={(event) => {
        event.preventDefault();
        press();
      }}
    >
      <div ref={field} className="groups-add-field">
        <TextField
          label={say("groups.addStudents")}
          value={text}
          onChange={(next) => {
            setText(next);
            setChanged(new Map());
          }}
          rows={3}
          // In an empty group there is nothing else to do.
          autoFocus={present.length === 0}
          help={say("groups.addHelp")}
          problem={tooMany ? say("groups.tooManyNames", { count: wanted.length }) : undefined}
        />
      </div>
      <Understood
        pasted={pasted}
        drafts={drafts}
        problems={problems}
        onChange={(at, draft) => setChanged(new Map([...changed, [at, draft]]))}
      />
      <div className="groups-add-row">
        <Button
          type="submit"
          look={present.length === 0 ? "main" : "plain"}
          isDisabled={!canAdd || add.isPending}
        >
          {say("groups.addCount", { count: wanted.length })}
        </Button>
        <p role="status">
          {undo.data !== undefined
            ? say("groups.addedUndone")
            : add.data === undefined
              ? null
              : say("groups.added", { count: add.data.studentsAdded })}
        </p>
        {add.data === undefined || undo.data !== undefined ? null : (
          <Button
            look="quiet"
            isDisabled={undo.isPending}
            onPress={() => undo.mutate(add.data.importId, { onSuccess: start })}
          >
            {say("act.undo")}
          </Button>
        )}
      </div>
      <Problem error={add.error ?? undo.error} />
    </form>
  );
}

type DraftProblem = "taken" | "repeated" | "empty" | "long";

/** What keeps each student of the list from being made; null for none and for those left out. */
function problemsOf(drafts: readonly Draft[], taken: readonly string[]): (DraftProblem | null)[] {
  const kept = drafts.filter(({ isLeftOut }) => !isLeftOut);
  const clashing = clashes(
    kept.map(({ name }) => name),
    taken,
  );
  const ofKept = kept.map(({ name }, at): DraftProblem | null =>
    name.trim() === "" ? "empty" : name.length > longestName ? "long" : (clashing[at] ?? null),
  );
  return drafts.map((draft) => (draft.isLeftOut ? null : (ofKept[kept.indexOf(draft)] ?? null)));
}

/** A picture of their own for each, as long as there are any: those who cannot read find themselves by it. */
function withPictures(names: readonly string[], present: readonly Student[]): RosterRow[] {
  const made = names.map((name, at) => ({ id: String(at), name, picture: null }));
  const given = new Map(
    picturesToGive([...present, ...made]).map(({ id, picture }) => [id, picture]),
  );
  return made.map(({ id, name }) => ({ name, target: "", picture: given.get(id) ?? null }));
}

interface UnderstoodProps {
  pasted: PastedNames;
  drafts: readonly Draft[];
  problems: readonly (DraftProblem | null)[];
  onChange: (at: number, draft: Draft) => void;
}

/** What the text was understood as; a line for each name that needs a decision. */
function Understood({ pasted, drafts, problems, onChange }: UnderstoodProps) {
  const say = useSay();
  // Which names needed a decision when they were pasted: their lines stay while they are being decided on.
  const first = problemsOf(
    pasted.names.map((name) => ({ name, isLeftOut: false })),
    [],
  );
  const open = drafts.flatMap((draft, at) => {
    const isAsked = problems[at] !== null || first[at] !== null || draft.isLeftOut;
    return isAsked || draft.name !== pasted.names[at] ? [at] : [];
  });
  const plain = drafts.filter((_, at) => !open.includes(at));
  if (drafts.length === 0) return null;
  return (
    <div className="groups-understood">
      {pasted.form === "list" ? null : <p>{say(`groups.pasted.${pasted.form}`)}</p>}
      {pasted.heading === null ? null : (
        <p>{say("groups.pasted.heading", { heading: pasted.heading })}</p>
      )}
      {pasted.leftOut ? <p>{say("groups.pasted.leftOut")}</p> : null}
      {plain.length === 0 ? null : (
        <ul className="groups-pasted">
          {plain.map(({ name }) => (
            <li key={name}>{name}</li>
          ))}
        </ul>
      )}
      {open.map((at) => {
        const draft = drafts[at] ?? { name: "", isLeftOut: false };
        const problem = problems[at] ?? null;
        return (
          <div key={at} className="groups-clash">
            {draft.isLeftOut ? (
              <span>{say("groups.pasted.skipped", { name: draft.name })}</span>
            ) : (
              <TextField
                label={say("groups.pasted.nameOf", { place: at + 1 })}
                value={draft.name}
                onChange={(name) => onChange(at, { ...draft, name })}
                problem={problem === null ? undefined : say(`groups.pasted.${problem}`)}
              />
            )}
            <Button
              look="quiet"
              onPress={() => onChange(at, { ...draft, isLeftOut: !draft.isLeftOut })}
              aria-label={say(draft.isLeftOut ? "groups.pasted.keep" : "groups.pasted.skip", {
                name: draft.name,
              })}
            >
              {say(draft.isLeftOut ? "groups.pasted.keepShort" : "groups.pasted.skipShort")}
            </Button>
          </div>
        );
      })}
    </div>
  );
}
