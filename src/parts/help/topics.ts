/** The pages of help, one for each kind of screen; `notebook` is for what has none of its own. */
export const topics = [
  "notebook",
  "today",
  "groups",
  "group",
  "agreed",
  "homeCard",
  "contract",
  "plan",
  "session",
  "cards",
  "progress",
  "class",
  "student",
  "sure",
  "practice",
  "observe",
  "held",
  "points",
  "teams",
  "pairs",
  "seats",
  "transfer",
  "settings",
  "print",
] as const;
export type Topic = (typeof topics)[number];

/** Which page of help belongs to an address; the first that fits. */
const addresses: readonly (readonly [pattern: RegExp, topic: Topic])[] = [
  [/^\/$/, "today"],
  [/^\/groups$/, "groups"],
  [/^\/groups\/[^/]+(\/room)?$/, "group"],
  [/^\/groups\/[^/]+\/students\/[^/]+\/agreed$/, "agreed"],
  [/^\/groups\/[^/]+\/students\/[^/]+\/contract$/, "contract"],
  [/^\/groups\/[^/]+\/(home-cards|students\/[^/]+\/home-card)$/, "homeCard"],
  [/^\/groups\/[^/]+\/plans\//, "plan"],
  [/^\/session\/[^/]+\/cards$/, "cards"],
  [/^\/session\/[^/]+\/quick-totals$/, "points"],
  [/^\/session\//, "session"],
  [/^\/progress$/, "progress"],
  [/^\/progress\/how-sure\//, "sure"],
  [/^\/progress\/[^/]+$/, "class"],
  [/^\/(progress|own)\/[^/]+\/[^/]+$/, "student"],
  [/^\/settings/, "settings"],
  [/^\/print\//, "print"],
];

/**
 * The page of help for an address of the app.
 *
 * Example: topicOf("/groups/7/practice") // "practice"
 */
export function topicOf(pathname: string): Topic {
  const own = /^\/groups\/[^/]+\/([^/]+)$/.exec(pathname)?.[1];
  const named = topics.find((topic) => topic === own);
  if (named !== undefined) return named;
  return addresses.find(([pattern]) => pattern.test(pathname))?.[1] ?? "notebook";
}
