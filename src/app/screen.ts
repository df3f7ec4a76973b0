import type { ComponentType } from "react";
import { whenOpen } from "../api/client.ts";

/**
 * A screen that is loaded when it is first opened, so that the app's start waits for none but its own. Its
 * program is asked for only while the host that let the page in is there: another could answer in its place.
 */
export async function screen<Name extends string>(
  load: () => Promise<Record<Name, ComponentType>>,
  name: Name,
): Promise<{ Component: ComponentType }> {
  await whenOpen();
  const { [name]: Component } = await load();
  return { Component };
}
