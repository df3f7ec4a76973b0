/**
 * What every child has without earning it: breaks, food and drink, the toilet, sport, going home, the
 * family. Words of English and Spanish that name them; common practice, no source.
 */
const always =
  /(?<!\p{L})(breaks?|recess|playtime|lunch|breakfast|snacks?|food|eat(ing)?|water|drinks?|drinking|toilets?|bathroom|restroom|loo|pe|gym|sports?|go(ing)? home|famil(y|ies)|parents?|m[uo]m|dad|recreos?|descansos?|almuerzos?|comidas?|comer|merienda|desayuno|agua|beber|baños?|aseos?|servicio|deportes?|gimnasia|educación física|irse a casa|ir a casa|familias?|padres|mamá|papá)(?!\p{L})/iu;

/**
 * The word in a privilege's name that looks like something no child should have to earn; null when there
 * is none.
 *
 * Example: neverAPrivilege("Five minutes more recess") // "recess"
 */
export function neverAPrivilege(name: string): string | null {
  return always.exec(name)?.[0] ?? null;
}
