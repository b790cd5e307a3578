// How wide words are in Inter, so that lines can be broken before anything is painted.

/** Advance widths in thousandths of the font size for the signs from space to tilde, read from the two font files. */
const WIDTHS = {
  regular: [281,288,466,633,642,982,644,300,365,365,501,662,288,460,288,360,631,407,610,618,646,593,620,566,619,620,288,302,662,662,662,511,966,690,654,730,722,601,590,746,743,269,571,672,565,903,753,765,639,765,644,642,646,744,690,985,682,679,629,365,360,365,471,456,323,562,612,571,612,583,370,613,591,242,242,549,242,876,591,600,612,612,376,528,327,591,562,818,546,562,552,426,333,426,662], // prettier-ignore
  semibold: [252,321,523,644,650,1004,663,326,373,373,540,673,319,465,319,379,660,423,623,636,666,612,640,576,640,640,319,329,673,673,673,543,999,728,659,737,722,605,588,749,746,277,580,703,565,922,759,769,645,773,652,650,660,736,728,1020,720,713,652,373,379,373,481,469,351,574,624,583,624,591,389,625,612,262,262,569,262,900,612,609,624,624,397,549,353,612,587,839,569,588,566,455,359,455,673], // prettier-ignore
} as const;

export type Weight = keyof typeof WIDTHS;

/** The longest line anywhere on a plate: what a phone shows without making the letters small. */
export const LONGEST_LINE = 44;

/** The width of a line in pixels; signs outside plain ASCII count as wide ones. */
export function widthOf(text: string, size: number, weight: Weight = 'regular'): number {
  let thousandths = 0;
  for (const sign of text) thousandths += WIDTHS[weight][(sign.codePointAt(0) ?? 0) - 32] ?? 780;
  return (thousandths * size) / 1000;
}

/** Lines no wider than the room and no longer than 44 signs. A word too long for the room is cut in two. */
export function wrapped(text: string, room: number, size: number, weight: Weight = 'regular'): string[] {
  const fits = (line: string) => line.length <= LONGEST_LINE && widthOf(line, size, weight) <= room;
  const lines: string[] = [];
  let line = '';
  for (const word of text.trim().split(/\s+/)) {
    let rest = word;
    if (line && fits(`${line} ${rest}`)) {
      line = `${line} ${rest}`;
      continue;
    }
    if (line) lines.push(line);
    while (!fits(rest)) {
      let cut = rest.length - 1;
      while (cut > 1 && !fits(`${rest.slice(0, cut)}-`)) cut--;
      lines.push(`${rest.slice(0, cut)}-`);
      rest = rest.slice(cut);
    }
    line = rest;
  }
  return line ? [...lines, line] : lines;
}
