/** The same for two names that a class would take for one, whatever their capitals. */
export const nameKey = (name: string): string => name.normalize("NFKC").toLocaleLowerCase("en");
