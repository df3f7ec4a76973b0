import type { CertificateProblem } from "../../../shared/seats/certificate-problems.ts";
import { type Certificate, CertificateError, readCertificate } from "../../seats/certificate.ts";
import { inLink, reachableAddresses } from "../../seats/own-addresses.ts";
import type { DesktopClock } from "../base/clock.ts";

/**
 * The certificate for an encrypted line, and the addresses that devices open with it or without one.
 *
 * @param file PEM file, or null for a line that is not encrypted
 */
export function seatCertificate(file: string | null, clock: Pick<DesktopClock, "wallMs">) {
  let certificate: Certificate | null = null;
  let problem: CertificateProblem | null = null;

  /** Reads the certificate anew, so that a file that was renewed needs no restart. */
  function look(): void {
    if (file === null) return;
    certificate = null;
    problem = null;
    try {
      certificate = readCertificate(file, clock.wallMs());
    } catch (error) {
      if (!(error instanceof CertificateError)) throw error;
      problem = error.problem;
    }
  }
  look();

  return {
    look,
    now: () => certificate,
    problem: () => problem,
    isSecure: () => file !== null,

    /** Where devices find the page on this port, the likeliest address first. */
    addresses(port: number): string[] {
      const own = reachableAddresses();
      if (file === null) return own.map((address) => `http://${inLink(address)}:${port}`);
      // Devices trust the certificate under its own names alone.
      const names = certificate?.names ?? [];
      const likeliest = names.toSorted(
        (one, other) => Number(own.includes(other)) - Number(own.includes(one)),
      );
      return likeliest.map((name) => `https://${inLink(name)}:${port}`);
    },
  };
}
