/**
 * The app's colours and sizes for browsers that do not know `light-dark()`: each colour once for light, and
 * once more where the device asks for dark.
 *
 * @param css the text of src/tokens.css
 */
export function plainTokens(css: string): string {
  const pair = /(--[\w-]+):\s*light-dark\((#\w+),\s*(#\w+)\);/g;
  const light = css.replace(pair, "$1: $2;").replace(/color-scheme: light dark;/, "");
  const dark = [...css.matchAll(pair)].map(([, name, , value]) => `    ${name}: ${value};`);
  return `${light}\n@media (prefers-color-scheme: dark) {\n  :root {\n${dark.join("\n")}\n  }\n}\n`;
}
