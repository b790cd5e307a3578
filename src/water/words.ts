import { inFigures, shortly } from '../../shared/units/figures.ts';

/** "20%", "57.1%". */
export const percent = (share: number): string => `${shortly(share * 100)}%`;

/** "1 day", "3 days", "2.5 days". */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${shortly(count)} ${count === 1 ? one : many}`;

/** "20 to 40", or "30" where both ends are the same. */
export const span = ({ low, high }: { low: number; high: number }): string =>
  low === high ? shortly(low) : `${shortly(low)} to ${shortly(high)}`;

/** Practical salinity as a good meter shows it, for lines that are checked by hand. */
export const psu = (salinity: number): string => inFigures(salinity, 4).replace(/\.?0+$/, '');
