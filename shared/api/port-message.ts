/** The `kind` of the window message by which a preload hands its page the API port. */
export const portMessage = "pebblechime-port";
