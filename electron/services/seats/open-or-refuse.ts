import { openSeatsServer, type SeatsServer, type SeatsServerOptions } from "../../seats/server.ts";
import { Refusal } from "../base/refusal.ts";

/** Opens the seats' server. Throws a Refusal that says what the teacher can do when it cannot. */
export async function openOrRefuse(
  options: SeatsServerOptions,
  report: (error: unknown) => void,
): Promise<SeatsServer> {
  const { port } = options;
  try {
    return await openSeatsServer(options);
  } catch (error) {
    if (error instanceof Error && "code" in error && error.code === "EADDRINUSE") {
      throw new Refusal(
        "seats-port-taken",
        `Another program uses port ${port} of this computer. Close it, or restart the computer.`,
        { port },
      );
    }
    report(error);
    throw new Refusal(
      "seats-failed",
      "Seats could not be opened. Restart Pebblechime and try again.",
    );
  }
}
