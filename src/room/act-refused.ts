/** An act that cannot be played; the message says in plain words what there is instead. */
export class ActRefused extends Error {}

/** A list for a sentence. */
export const inAList = (names: string[]): string => (names.length ? names.join(', ') : 'none');
