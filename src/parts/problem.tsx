import { ApiError } from "../api/api-error.ts";
import { type Say, useSay } from "../text/text.tsx";
import { Notice } from "./notice.tsx";

/** Words a failed call for a teacher: what happened and what to do. */
export function wordProblem(say: Say, error: unknown): string {
  if (!(error instanceof ApiError)) return say("error.failed", { reference: String(error) });
  const { failure } = error;
  switch (failure.kind) {
    case "refused":
      return wordRefusal(say, failure);
    case "missing":
      return say("error.missing");
    case "bad-input":
      return say("error.badInput");
    case "unreachable":
      return say("error.unreachable");
    case "failed":
      return say("error.failed", { reference: failure.reference });
  }
}

/** What the disk or the data file may say no with and has a sentence of its own. */
const storeProblems = ["full", "read-only", "reading-only", "entry-damaged", "damaged"] as const;

function wordRefusal(
  say: Say,
  { code, values }: Extract<ApiError["failure"], { readonly kind: "refused" }>,
): string {
  const problem = storeProblems.find((each) => each === values.problem);
  if (code === "store-failed" && problem !== undefined) return say(`store.${problem}`);
  return say(`refused.${code}`, values);
}

/** Shows why something could not be done; nothing when all is well. */
export function Problem({ error }: { error: unknown }) {
  const say = useSay();
  if (error === null || error === undefined) return null;
  return (
    <Notice kind="caution" title={say("error.title")}>
      {wordProblem(say, error)}
    </Notice>
  );
}
