/**
 * What is bought with points, cheapest first; what costs the same stays in its order. So whatever a balance
 * can afford comes before whatever it cannot.
 *
 * Example: cheapestFirst([{ price: 8 }, { price: 5 }])[0].price // 5
 */
export const cheapestFirst = <Priced extends { readonly price: number }>(
  privileges: readonly Priced[],
): Priced[] => [...privileges].sort((one, other) => one.price - other.price);
