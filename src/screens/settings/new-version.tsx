import { useSay } from "../../text/text.tsx";

/** A way to the page with new versions, opened by a press in the browser; nothing where nobody said where. */
export function NewVersion({ address }: { address: string | null }) {
  const say = useSay();
  if (address === null) return null;
  return (
    <p>
      <a href={address} target="_blank" rel="noreferrer">
        {say("settings.newVersion")}
      </a>{" "}
      {say("settings.newVersionHelp")}
    </p>
  );
}
