/** How members are called on pictures, by their ids. */
export type Names = ReadonlyMap<string, string>;

/** What to call each of these members; one whose name is not known is a number, since a picture shows no mention. */
export function namedBy(names: Names, members: readonly string[]): (memberId: string) => string {
  const order = [...new Set(members)];
  return (memberId) => names.get(memberId) ?? `member ${order.indexOf(memberId) + 1}`;
}
