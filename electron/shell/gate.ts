import type { IpcMain, IpcMainInvokeEvent } from "electron";
import type { z } from "zod";
import type { ShellFailure } from "../../shared/api/shell.ts";
import { isAppAddress } from "./address.ts";

type Sender = Pick<IpcMainInvokeEvent, "sender" | "senderFrame">;
export type AppSender = { readonly [Part in keyof Sender]: NonNullable<Sender[Part]> };

const refused: ShellFailure = {
  kind: "failed",
  message: "This window may not ask for that. Close it and open the app again.",
};

/** The sender, if it is the top frame of a window the app made and shows a page of the app; else null. */
function appSender(event: Sender, isOurWindow: (id: number) => boolean): AppSender | null {
  const { sender, senderFrame } = event;
  if (senderFrame === null || senderFrame.parent !== null) return null;
  if (!isOurWindow(sender.id) || !isAppAddress(senderFrame.url)) return null;
  return { sender, senderFrame };
}

/**
 * The one gate for messages from pages. Nothing runs before the sending frame and what it sent are
 * checked; a refusal and a failure are answers, so a page never waits for nothing.
 * @param isOurWindow whether the app made the window whose contents have this id
 */
export function openGate(ipcMain: IpcMain, isOurWindow: (id: number) => boolean) {
  return function answer<Asked, Outcome>(
    channel: string,
    asked: z.ZodType<Asked>,
    reply: (sender: AppSender, asked: Asked) => Outcome | Promise<Outcome>,
  ): void {
    ipcMain.handle(channel, async (event, ...sent: unknown[]): Promise<Outcome | ShellFailure> => {
      const sender = appSender(event, isOurWindow);
      if (sender === null) return refused;
      const parsed = asked.safeParse(sent[0]);
      if (!parsed.success || sent.length > 1) {
        return { kind: "failed", message: "The window asked in a way that the app does not know." };
      }
      try {
        return await reply(sender, parsed.data);
      } catch (error) {
        // Its kind only: the message may quote a child's name.
        console.error(`${channel} failed: ${error instanceof Error ? error.name : typeof error}`);
        return { kind: "failed", message: "That did not work. Try again, or restart the app." };
      }
    });
  };
}
