// What the seats' server lets pass, and when a device counts as asleep. Lengths in ms of real time.

/** Cues are numbered up to here: as many as a session can have, which a test holds; seats know no plans. */
export const mostSeatCues = 2_000;
/** A message of a seat is never longer. */
export const longestSeatMessageBytes = 512;
/** Messages that a device may send in a second. */
export const mostMessagesASecond = 20;
/** Devices that one address may connect; a router in between makes a room look like one address. */
export const mostSocketsAnAddress = 60;
/** Devices in all. */
export const mostSockets = 600;
/** A device says so often that it is awake and in front. */
export const aliveEveryMs = 5_000;
/** Two words missed, and a little for the way. */
export const asleepAfterMs = 2 * aliveEveryMs + 2_000;
/** Each of its words is answered: after so long without an answer it takes the line for lost. */
export const lostAfterMs = 2 * aliveEveryMs + 1_000;
/** A device that connects says its code within this time. */
export const helloWithinMs = 10_000;
/** A line on which nothing came for so long is closed. */
export const silentLineMs = 60_000;
/** A mark that comes later than this after its cue belongs to the cards. */
export const lateMarkMs = 300_000;
/** Wrong codes that an address may try in a minute. */
export const wrongCodesAMinute = 5;
/** After this many wrong codes in an hour, from all addresses, joining pauses. */
export const wrongCodesAnHour = 50;
export const joiningPausedMs = 600_000;
/** What is taken wants to be held this long. */
export const takeHoldMs = 600;
