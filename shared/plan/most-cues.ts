/**
 * The most cues a session can have: its log numbers them up to here, and so do the key, the recording and
 * the cards. About one every five seconds over the longest session; `checkPlan` refuses plans that could
 * need more.
 */
export const mostCues = 2_000;
