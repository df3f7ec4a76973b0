import { useState } from "react";
import { useNavigate } from "react-router";
import { useTell } from "../api/queries.ts";
import { useSay } from "../text/text.tsx";
import { Button } from "./button.tsx";
import { TextField } from "./field.tsx";
import { Problem } from "./problem.tsx";
import "./new-group-form.css";

/** Makes a group under a name and opens it. Where nothing else is on the page, typing starts at once. */
export function NewGroupForm({ autoFocus = false }: { autoFocus?: boolean }) {
  const say = useSay();
  const navigate = useNavigate();
  const [name, setName] = useState("");
  const create = useTell((api, groupName: string) =>
    api.groups.create({ name: groupName, target: say("groups.firstTarget") }),
  );
  const wanted = name.trim();
  return (
    <form
      className="new-group"
      onSubmit={(event) => {
        event.preventDefault();
        if (wanted === "") return;
        create.mutate(wanted, { onSuccess: (group) => navigate(`/groups/${group.id}`) });
      }}
    >
      <TextField
        label={say("groups.name")}
        value={name}
        onChange={setName}
        maxLength={60}
        autoFocus={autoFocus}
        help={say("welcome.nameHelp")}
      />
      <Button type="submit" look="main" isDisabled={wanted === "" || create.isPending}>
        {say("welcome.create")}
      </Button>
      <Problem error={create.error} />
    </form>
  );
}
