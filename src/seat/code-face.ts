import { button, element, put } from "./dom.ts";
import { say } from "./words.ts";

/** Asks for the code; `trouble` is why the last one did not do. */
export function showCodeFace(trouble: string, join: (code: string) => void): void {
  const field = element("input", { className: "code-field" }) as HTMLInputElement;
  field.setAttribute("autocapitalize", "characters");
  field.setAttribute("autocomplete", "off");
  field.setAttribute("autocorrect", "off");
  field.setAttribute("spellcheck", "false");
  field.setAttribute("maxlength", "12");
  const label = element("label", { text: say("seatPage.codeTitle") });
  label.setAttribute("for", "code");
  field.id = "code";
  const form = element(
    "form",
    { className: "face" },
    element("h1", { className: "code-title" }, label),
    field,
    element("p", { className: "soft", text: say("seatPage.codeHelp") }),
    element("p", { className: "trouble", text: trouble, role: "alert" }),
    button(say("seatPage.join"), "main", () => join(field.value)),
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    join(field.value);
  });
  const knows = element("p", { className: "knows", text: say("seatPage.knowsNothing") });
  put(element("div", { className: "page" }, form, knows));
  field.focus();
}

/** One sentence to a device that has a code, and perhaps one thing to do. */
export function showSentence(text: string, act?: { label: string; press: () => void }): void {
  const face = element("div", { className: "face" });
  face.appendChild(element("p", { className: "lead", text, role: "status" }));
  if (act !== undefined) face.appendChild(button(act.label, "main", act.press));
  const knows = element("p", { className: "knows", text: say("seatPage.knowsCode") });
  put(element("div", { className: "page" }, face, knows));
}
