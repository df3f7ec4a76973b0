import { useState } from "react";
import { useTell } from "../api/queries.ts";
import { Button } from "../parts/button.tsx";
import { TextField } from "../parts/field.tsx";
import { Problem } from "../parts/problem.tsx";
import { useSay } from "../text/text.tsx";
import "./note-field.css";

interface NoteFieldProps {
  sessionId: string;
  /** Names the session, where there is more than one to note something on. */
  label: string;
}

/** Notes something on a session that is over. Each note is added to those before; none is replaced. */
export function NoteField({ sessionId, label }: NoteFieldProps) {
  const say = useSay();
  const [text, setText] = useState("");
  const keep = useTell((api, note: string) => api.sessions.note({ sessionId, text: note }));
  const written = text.trim();
  return (
    <form
      className="note-field"
      onSubmit={(event) => {
        event.preventDefault();
        if (written === "" || keep.isPending) return;
        keep.mutate(written, { onSuccess: () => setText("") });
      }}
    >
      <TextField
        label={label}
        help={`${say("notes.help")} ${say("notes.stays")}`}
        value={text}
        onChange={setText}
        maxLength={1_000}
        rows={2}
      />
      <div>
        <Button type="submit" isDisabled={written === "" || keep.isPending}>
          {say("notes.keep")}
        </Button>
      </div>
      <p className="note-field-kept" role="status">
        {keep.isSuccess && text === "" ? say("notes.kept", { note: keep.variables }) : ""}
      </p>
      <Problem error={keep.error} />
    </form>
  );
}
