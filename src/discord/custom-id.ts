/** Raised when the meaning of an act's words changes; a button of an older version gets a friendly answer. */
const VERSION = '1';
const MOST = 100;

export type CustomId = { act: string; args: string[] };

/**
 * The custom id of a button: version, act and words, parted by colons.
 *
 * @throws RangeError when a word holds a colon or the id would be longer than Discord takes (100).
 */
export function writeCustomId(act: string, args: readonly string[]): string {
  const words = [VERSION, act, ...args];
  const foul = words.find((word) => word.includes(':'));
  if (foul !== undefined) throw new RangeError(`a word of a custom id holds a colon: ${foul}`);
  const id = words.join(':');
  if (id.length > MOST)
    throw new RangeError(`a custom id may have ${MOST} characters, this one has ${id.length}: ${id}`);
  return id;
}

/** Reads a custom id; null when it is of another version or not one of ours. */
export function readCustomId(id: string): CustomId | null {
  const [version, act, ...args] = id.split(':');
  return version === VERSION && act ? { act, args } : null;
}
