/** One page of a browser, driven from outside as a hand and an eye would. */
export interface Driver {
  open(address: string): Promise<void>;
  /**
   * The value of an expression in the page, through JSON. It is evaluated without being taken for a gesture,
   * so that it lets no sound through that a press has to let through.
   */
  read<Value>(expression: string): Promise<Value>;
  /** Presses the mouse at a point of the page, in CSS pixels. */
  press(x: number, y: number): Promise<void>;
  /** Types where the focus is. */
  type(text: string): Promise<void>;
  /** What the open page or the browser reported as an error so far, refusals of the content policy too. */
  errors(): Promise<readonly string[]>;
  close(): Promise<void>;
}

const lookMs = 100;
const mostMs = 20_000;

/** Reads again until the answer is neither null nor false. Throws after a while, with what the page shows. */
export async function until<Value>(
  driver: Driver,
  what: string,
  read: () => Promise<Value | null | false>,
  timeoutMs = mostMs,
): Promise<Value> {
  for (const limitMs = Date.now() + timeoutMs; Date.now() < limitMs; ) {
    const value = await read();
    if (value !== null && value !== false) return value;
    await new Promise((resolve) => setTimeout(resolve, lookMs));
  }
  const shown = await driver.read<string>("document.body.innerText.slice(0, 1500)");
  throw new Error(`Not within ${timeoutMs / 1_000} s: ${what}. The page shows:\n${shown}`);
}

/** Where something can be pressed that a person would call by this name; null while it cannot. */
const placeOf = (selector: string, name: string) => `(() => {
  const named = (each) => (each.getAttribute("aria-label") ?? each.textContent).replace(/\\s+/g, " ").trim();
  const found = [...document.querySelectorAll(${JSON.stringify(selector)})]
    .find((each) => named(each) === ${JSON.stringify(name)} && each.getClientRects().length > 0);
  if (found === undefined || found.disabled) return null;
  found.scrollIntoView({ block: "center", inline: "center" });
  const box = found.getBoundingClientRect();
  const at = { x: Math.round(box.x + box.width / 2), y: Math.round(box.y + box.height / 2) };
  const top = document.elementFromPoint(at.x, at.y);
  return top !== null && (found.contains(top) || top.contains(found)) ? at : null;
})()`;

const pressable = "button, a, [role=button], [role=option], [role=menuitem], label, summary";

/** Presses what bears a name, once it can be pressed. */
export async function pressOn(driver: Driver, name: string, selector = pressable): Promise<void> {
  const at = await until(driver, `"${name}" can be pressed`, () =>
    driver.read<{ x: number; y: number } | null>(placeOf(selector, name)),
  );
  await driver.press(at.x, at.y);
}

/** Types into the field that a label names. */
export async function typeInto(driver: Driver, label: string, text: string): Promise<void> {
  const at = await until(driver, `a field "${label}"`, () =>
    driver.read<{ x: number; y: number } | null>(`(() => {
      const label = [...document.querySelectorAll("label")]
        .find((each) => each.textContent.trim() === ${JSON.stringify(label)});
      const field = label?.control;
      if (!field) return null;
      field.scrollIntoView({ block: "center" });
      const box = field.getBoundingClientRect();
      return { x: Math.round(box.x + 20), y: Math.round(box.y + box.height / 2) };
    })()`),
  );
  await driver.press(at.x, at.y);
  await driver.type(text);
}

/** Waits until the page shows a text. */
export const sees = (driver: Driver, text: string, timeoutMs?: number): Promise<true> =>
  until(
    driver,
    `"${text}" is shown`,
    async () =>
      (await driver.read<boolean>(`document.body.innerText.includes(${JSON.stringify(text)})`)) ||
      null,
    timeoutMs,
  ) as Promise<true>;
