/** From this on whole days are said as days; a limit of 64 or 72 hours stays one of hours. */
const LEAST_IN_DAYS_H = 96;

export const isInDays = (hours: number): boolean => hours >= LEAST_IN_DAYS_H && hours % 24 === 0;

/** "64 hours", "7 days"; with the unit of the one before it left out: "not before 5 and not after 8". */
export const spanWords = (hours: number, before?: number): string => {
  const [count, unit] = isInDays(hours) ? [hours / 24, 'days'] : [hours, 'hours'];
  return before !== undefined && isInDays(before) === isInDays(hours) ? String(count) : `${count} ${unit}`;
};

const ORDINALS = ['', 'first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'];

/** "the third dip" of a run of dips. */
export const turnWords = (title: string, turn: number): string =>
  ORDINALS[turn] ? `the ${ORDINALS[turn]} ${title.toLowerCase()}` : `${title.toLowerCase()} ${turn}`;
