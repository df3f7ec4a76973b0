import type { ReactNode } from "react";
import type { PlanField } from "./problem-places.ts";

/** Marks where a setting stands on the page, so that the keyboard can be taken to it. */
export function FieldPlace({ field, children }: { field: PlanField; children: ReactNode }) {
  return <div data-plan-field={field}>{children}</div>;
}

/** Takes the keyboard to a setting: to the chosen one of its choices, or else to what is typed in last. */
export function goToField(field: PlanField): void {
  const place = document.querySelector(`[data-plan-field="${field}"]`);
  const typed = place?.querySelector<HTMLElement>("input[aria-invalid=true], input[type=text]");
  const found =
    typed ?? place?.querySelector<HTMLElement>("input:checked") ?? place?.querySelector("input");
  found?.focus();
  // In the middle, where neither the window's edge nor what is fixed there can cover it.
  place?.scrollIntoView({ block: "center" });
}
