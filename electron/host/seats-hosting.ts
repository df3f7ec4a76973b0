import { CertificateError, readCertificate } from "../seats/certificate.ts";
import type { SeatsHosting } from "../services/seats/opening.ts";
import type { StartArguments } from "./arguments.ts";

/**
 * How students' own devices are served, from what a start was asked for.
 *
 * @param folder the built page for devices (dist/seats)
 */
export function seatsHosting(asked: StartArguments, folder: string): SeatsHosting {
  const { seatsPort, seatsCertificate, seatsAnAddress } = asked;
  return {
    folder,
    port: seatsPort,
    certificateFile: seatsCertificate,
    socketsAnAddress: seatsAnAddress,
  };
}

/**
 * Why seats will stay closed, for whoever starts the program from a terminal; null when nothing is wrong. A
 * certificate that has run out stops no lesson: all but seats works.
 *
 * @param nowMs ms since 1970 UTC
 */
export function seatsWarning({ seatsCertificate }: StartArguments, nowMs: number): string | null {
  if (seatsCertificate === null) return null;
  try {
    readCertificate(seatsCertificate, nowMs);
    return null;
  } catch (error) {
    if (error instanceof CertificateError) return `Seats stay closed. ${error.message}`;
    throw error;
  }
}
