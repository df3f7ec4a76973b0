import { useEffect, useRef, useState } from "react";
import { languages } from "../../../shared/api/app.ts";
import { mostFamilyWords } from "../../../shared/home/family-words.ts";
import { isRefusal } from "../../api/api-error.ts";
import { useTell } from "../../api/queries.ts";
import { Choices, TextField } from "../../parts/field.tsx";
import { Problem } from "../../parts/problem.tsx";
import { SavedElsewhere } from "../../parts/sheet/saved-elsewhere.tsx";
import { useSaveAtRest } from "../../parts/sheet/use-save-at-rest.ts";
import type { Language } from "../../text/catalogue.ts";
import { useSay } from "../../text/text.tsx";

interface FamilyEditProps {
  readonly studentId: string;
  readonly name: string;
  readonly language: Language;
  /** As saved. */
  readonly words: string;
  /** Told with every key, so that the sheet shows what is written. */
  readonly onWords: (words: string) => void;
}

/** Above each sheet and never printed: the family's language, and the adult's own words to it. */
export function FamilyEdit({ studentId, name, language, words, onWords }: FamilyEditProps) {
  const say = useSay();
  const [text, setText] = useState(words);
  const speak = useTell((api, to: Language) => api.agreed.savePaper({ studentId, language: to }));
  const keep = useTell((api, { next, before }: { next: string; before: string }) =>
    api.family.saveWords({ studentId, words: next, before }),
  );
  const saved = useRef(words.trim());
  /** What this window saved itself: it comes back as kept, perhaps after further keys. */
  const own = useRef(new Set([words.trim()]));
  const isOld = isRefusal(keep.error, "saved-elsewhere");
  const save = (text: string) => {
    const [next, before] = [text.trim(), saved.current];
    if (next === before || isOld) return;
    saved.current = next;
    own.current.add(next);
    keep.mutate(
      { next, before },
      {
        // What was not kept is tried again with the next key.
        onError: () => {
          saved.current = before;
        },
      },
    );
  };
  const show = (kept: string) => {
    saved.current = kept;
    setText(kept);
    onWords(kept);
  };
  // Untouched, the field follows what another window saved.
  // biome-ignore lint/correctness/useExhaustiveDependencies: only other words that are kept are followed
  useEffect(() => {
    if (!own.current.has(words) && text.trim() === saved.current) show(words);
  }, [words]);
  useSaveAtRest(text, true, () => save(text));
  return (
    <section className="family-edit" aria-label={say("familyPage.edit", { name })}>
      <Choices
        label={say("familyPage.languageOf", { name })}
        inRow
        value={language}
        choices={languages.map((value) => ({ value, label: say(`settings.language.${value}`) }))}
        onChange={(to) => speak.mutate(to)}
      />
      <TextField
        label={say("familyPage.ownWordsTo", { name })}
        help={say("familyPage.ownWordsHelp")}
        value={text}
        onChange={(next) => {
          setText(next);
          onWords(next);
        }}
        rows={3}
        maxLength={mostFamilyWords}
      />
      <p className="family-kept" role="status">
        {keep.isSuccess && keep.variables.next === text.trim() ? say("familyPage.kept") : ""}
      </p>
      {isOld ? (
        <SavedElsewhere
          onTake={() => {
            keep.reset();
            show(words);
          }}
          onKeep={() => {
            saved.current = text.trim();
            keep.mutate({ next: saved.current, before: words });
          }}
        />
      ) : (
        <Problem error={keep.error ?? speak.error} />
      )}
    </section>
  );
}
