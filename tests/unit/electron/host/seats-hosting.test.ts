import { expect, it } from "vitest";
import { parseArguments } from "../../../../electron/host/arguments.ts";
import { seatsHosting, seatsWarning } from "../../../../electron/host/seats-hosting.ts";

it("a certificate that cannot be used is said in one sentence, and stops no start", () => {
  const asked = parseArguments(["--seats-certificate", "absent.pem", "--seats-port", "5000"]);
  expect(seatsHosting(asked, "page")).toEqual({
    folder: "page",
    port: 5_000,
    certificateFile: "absent.pem",
    socketsAnAddress: 60,
  });
  expect(seatsWarning(asked, Date.now())).toMatch(
    /^Seats stay closed\. The certificate for seats cannot be used: the file cannot be read\. Ask /,
  );
  expect(seatsWarning(parseArguments([]), Date.now())).toBe(null);
});
