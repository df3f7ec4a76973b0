/** Where the reading of an agreement changes, in words and in how often is checked. Shares are from 0 to 1. */
export const agreementThresholds = {
  /**
   * Below ten compared cues one disagreement moves the share by more than ten points, so nothing is
   * said. Common practice, no source.
   */
  fewestCompared: 10,
  /**
   * The usual lowest acceptable agreement: .80 percent or .60 kappa. What Works Clearinghouse,
   * Single-Case Designs Technical Documentation 1.0 (Kratochwill et al. 2010).
   */
  acceptable: 0.8,
  acceptableKappa: 0.6,
  /** The upper end of the same document's ".80-.90". */
  strong: 0.9,
  /** Beyond this prevalence index kappa says little about the records. Common practice, no source. */
  oneSidedPrevalence: 0.8,
} as const;
