/**
 * What every child has without earning it: breaks, food, water, the toilet, sport, going home and contact
 * with the family. Words of English and Spanish that name them; common practice, no source.
 */
const everyChilds: readonly string[] = [
  "breaks?|recess|playtime|rest time|recreos?|descansos?|descansar|pausas?",
  "lunch(time)?|breakfast|snacks?|food|meals?|eat(ing)?|cand(y|ies)|sweets",
  "almuerzos?|desayunos?|comidas?|comer|meriendas?|alimentos?|dulces|golosinas",
  "water|drinks?|drinking|agua|beber|bebidas?",
  "toilets?|bathrooms?|restrooms?|washrooms?|lavator(y|ies)|loo|pee",
  "baños?|aseos?|servicios?|sanitarios?|lavabos?|excusado|inodoro|orinar",
  "pe|gym|sports?|soccer|football|basketball|baseball|swimming|physical education",
  "deportes?|gimnasia|fútbol|baloncesto|básquetbol|béisbol|natación|educación física",
  "go(ing)? home|home time|leav(e|ing) early|early dismissal",
  "ir(se|me)? a (la |mi )?casa|salir (antes|temprano)|salida temprana",
  "famil(y|ies)|parents?|m[uo]m(my)?|mothers?|dad(dy)?|fathers?|grand(ma|pa|mother|father|parents?)|(call|phone) home",
  "familias?|padres?|madres?|mamá|papá|abuel[oa]s?|llamar a (mi )?casa",
];

const plain = (text: string): string => text.normalize("NFD").replace(/\p{M}/gu, "");

/** Whole words, with accents or without. */
const always = new RegExp(`(?<!\\p{L})(?:${plain(everyChilds.join("|"))})(?!\\p{L})`, "iu");

/**
 * The word in a privilege's name that looks like something no child should have to earn; null when there
 * is none.
 *
 * Example: neverAPrivilege("Five minutes more recess") // "recess"
 */
export function neverAPrivilege(name: string): string | null {
  const composed = name.normalize("NFC");
  // Without its marks each letter stays one letter, so what is found lies at the same place.
  const found = always.exec([...composed].map((letter) => plain(letter)).join(""));
  return found === null ? null : composed.slice(found.index, found.index + found[0].length);
}
