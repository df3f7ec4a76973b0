/** Hands a text to the browser's downloads under a name; nothing leaves the computer. */
export function saveFile(text: string, name: string, type: "text/csv" | "application/json"): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: `${type};charset=utf-8` }));
  link.download = name;
  link.click();
  // The download has its own hold on the data after the press.
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

/** A record as it is saved: for people to read too. */
export const pretty = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;

const longestName = 60;

/** "Room 4", "2026-03-02", "csv" -> "Room-4-2026-03-02.csv": letters and digits of any language. */
export function fileName(what: string, day: string, ending: string): string {
  const plain = what
    .normalize("NFC")
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .slice(0, longestName)
    .replace(/^-+|-+$/g, "");
  return `${[plain, day].filter((part) => part !== "").join("-")}.${ending}`;
}
