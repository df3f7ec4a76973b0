import { type Certificate, CertificateError, readCertificate } from "../seats/certificate.ts";
import type { SeatsHosting } from "../services/seats/opening.ts";
import { ArgumentError, type StartArguments } from "./arguments.ts";

/**
 * How students' own devices are served, from what a start was asked for.
 *
 * @param folder the built page for devices (dist/seats)
 * @param nowMs ms since 1970 UTC
 * @throws ArgumentError when the certificate cannot be used
 */
export function seatsHosting(asked: StartArguments, folder: string, nowMs: number): SeatsHosting {
  const { seatsPort, seatsCertificate, seatsAnAddress } = asked;
  return {
    folder,
    port: seatsPort,
    certificate: seatsCertificate === null ? null : certificateIn(seatsCertificate, nowMs),
    socketsAnAddress: seatsAnAddress,
  };
}

function certificateIn(path: string, nowMs: number): Certificate {
  try {
    return readCertificate(path, nowMs);
  } catch (error) {
    if (error instanceof CertificateError) throw new ArgumentError(error.message);
    throw error;
  }
}
