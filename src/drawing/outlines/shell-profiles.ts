// The side lines of coiled shells. Shells stand with the tip up and the mouth to the viewer, as in shell books.

export type ShellProfile = 'round' | 'low-round' | 'turret' | 'needle' | 'top' | 'low-cone' | 'spindle' | 'stout-spindle' | 'knobbly' | 'cone' | 'bullet' | 'rice' | 'stairs'; // prettier-ignore

export type Profile = {
  top: number;
  bottom: number;
  /** Half the greatest width. */
  half: number;
  whorls: number;
  /** The share of the height that the last turn takes. */
  last: number;
  /** How far the turns bulge between their seams. */
  bulge: number;
  /** Drawn with straight sides and a sharp shoulder. */
  sharp?: boolean;
  /** Half width at a height from tip (0) to base (1), as a share of the greatest. */
  side: (t: number) => number;
};

/** A smooth height-to-width line through the stops; `line` keeps the corners. */
const smooth =
  (...stops: readonly (readonly [number, number])[]) =>
  (t: number): number => {
    const at = (index: number) => stops[Math.min(stops.length - 1, Math.max(0, index))] ?? [0, 0];
    const i = Math.max(
      1,
      stops.findIndex(([stop]) => t <= stop),
    );
    const [[fromT, from], [toT, to]] = [at(i - 1), at(i)];
    const slope = (k: number) => (at(k + 1)[1] - at(k - 1)[1]) / (at(k + 1)[0] - at(k - 1)[0] || 1);
    const u = (t - fromT) / (toT - fromT || 1);
    const [a, b] = [slope(i - 1) * (toT - fromT), slope(i) * (toT - fromT)];
    return (
      (2 * u ** 3 - 3 * u ** 2 + 1) * from +
      (u ** 3 - 2 * u ** 2 + u) * a +
      (3 * u ** 2 - 2 * u ** 3) * to +
      (u ** 3 - u ** 2) * b
    );
  };

const line =
  (...stops: readonly (readonly [number, number])[]) =>
  (t: number): number => {
    for (let i = 1; i < stops.length; i++) {
      const [[fromT, from], [toT, to]] = [stops[i - 1] ?? [0, 0], stops[i] ?? [1, 0]];
      if (t <= toT) return from + ((to - from) * (t - fromT)) / (toT - fromT || 1);
    }
    return stops.at(-1)?.[1] ?? 0;
  };

export const PROFILES: Record<ShellProfile, Profile> = {
  round: { top: 64, bottom: 276, half: 112, whorls: 4, last: 0.66, bulge: 0.06, side: smooth([0, 0.02], [0.12, 0.26], [0.34, 0.62], [0.6, 1], [0.82, 0.86], [1, 0.3]) }, // prettier-ignore
  'low-round': { top: 110, bottom: 276, half: 122, whorls: 3, last: 0.84, bulge: 0.03, side: smooth([0, 0.16], [0.14, 0.5], [0.4, 0.92], [0.6, 1], [0.85, 0.8], [1, 0.34]) }, // prettier-ignore
  turret: { top: 22, bottom: 284, half: 54, whorls: 9, last: 0.28, bulge: 0.1, side: line([0, 0.03], [0.8, 1], [0.92, 0.8], [1, 0.26]) }, // prettier-ignore
  stairs: { top: 20, bottom: 284, half: 58, whorls: 7, last: 0.3, bulge: 0.26, side: line([0, 0.05], [0.8, 1], [0.92, 0.9], [1, 0.4]) }, // prettier-ignore
  needle: { top: 18, bottom: 284, half: 40, whorls: 10, last: 0.26, bulge: 0.01, side: line([0, 0.02], [0.82, 1], [0.93, 0.86], [1, 0.34]) }, // prettier-ignore
  rice: { top: 34, bottom: 284, half: 46, whorls: 6, last: 0.44, bulge: 0.04, side: smooth([0, 0.14], [0.2, 0.56], [0.6, 0.98], [0.8, 1], [0.93, 0.78], [1, 0.34]) }, // prettier-ignore
  top: { top: 46, bottom: 276, half: 116, whorls: 6, last: 0.34, bulge: 0.05, side: line([0, 0.02], [0.78, 1], [0.9, 0.86], [1, 0.34]) }, // prettier-ignore
  'low-cone': { top: 110, bottom: 262, half: 142, whorls: 5, last: 0.36, bulge: 0.02, side: line([0, 0.04], [0.72, 1], [0.86, 0.96], [1, 0.5]) }, // prettier-ignore
  spindle: { top: 26, bottom: 290, half: 76, whorls: 6, last: 0.6, bulge: 0.07, side: smooth([0, 0.02], [0.24, 0.44], [0.5, 1], [0.66, 0.92], [0.86, 0.46], [1, 0.18]) }, // prettier-ignore
  'stout-spindle': { top: 44, bottom: 282, half: 74, whorls: 5, last: 0.6, bulge: 0.05, side: smooth([0, 0.03], [0.24, 0.46], [0.56, 1], [0.76, 0.9], [0.92, 0.56], [1, 0.36]) }, // prettier-ignore
  knobbly: { top: 50, bottom: 286, half: 92, whorls: 4, last: 0.62, bulge: 0.05, side: smooth([0, 0.06], [0.26, 0.56], [0.48, 1], [0.66, 0.92], [0.86, 0.5], [1, 0.22]) }, // prettier-ignore
  cone: { top: 46, bottom: 290, half: 92, whorls: 4, last: 0.84, bulge: 0, sharp: true, side: line([0, 0.1], [0.04, 0.3], [0.08, 0.52], [0.12, 0.74], [0.15, 0.97], [0.19, 1], [1, 0.16]) }, // prettier-ignore
  bullet: { top: 40, bottom: 286, half: 62, whorls: 3, last: 0.86, bulge: 0, side: smooth([0, 0.04], [0.1, 0.4], [0.26, 0.84], [0.5, 1], [0.76, 0.88], [0.94, 0.56], [1, 0.34]) }, // prettier-ignore
};
