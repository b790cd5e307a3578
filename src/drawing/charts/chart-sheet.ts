// The sheet a chart is written on. It knows where words stand, so that none is put over another.
import type { Theme } from '../ink.ts';
import { widthOf, wrapped } from '../letters.ts';
import { framed, lineHeight, writing, type Plate, type Written } from '../page.ts';
import { tag } from '../svg.ts';
import { CHART_INKS, type ChartInk } from './chart-ink.ts';
import { plainWords } from './figures.ts';

export const CHART_WIDTH = 900;
export const SIDE = 20;
export const TITLE = 34;
/** The smallest letters: on a phone that shows the picture 375 wide they are still 11 high. */
export const SMALL = 26;

export type Room = { left: number; right: number; top: number; bottom: number };
export type Spot = { x: number; y: number; align?: 'start' | 'middle' | 'end' };

export type ChartSheet = {
  ink: ChartInk;
  /** Adds marks; all of them lie under all words. */
  draw(marks: string): void;
  /** Writes one line where it is told to. */
  write(text: string, spot: Spot, how?: Partial<Written>): void;
  /** Writes lines of at most the width of the sheet; returns the baseline after the last. */
  paragraph(text: string, y: number, how?: Partial<Written>): number;
  /** Writes a line at the first spot where it touches no other words, nothing kept free, and stays in the room. */
  writeIfFree(text: string, spots: readonly Spot[], room: Room, how?: Partial<Written>): boolean;
  /** Where such a line would be free. */
  freeSpot(text: string, spots: readonly Spot[], room: Room, how?: Partial<Written>): { spot: Spot; box: Room } | undefined; // prettier-ignore
  /** Keeps words that look for a free spot away from here. */
  keepFree(room: Room): void;
  plate(height: number, said: readonly string[]): Plate;
};

/** An empty sheet. */
export function chartSheet(theme: Theme): ChartSheet {
  const ink = CHART_INKS[theme];
  const words: Room[] = [];
  const kept: Room[] = [];
  let [marks, text] = ['', ''];

  const styled = (how: Partial<Written>): Written => ({ size: SMALL, fill: ink.words, ...how });
  const write = (line: string, { x, y, align = 'start' }: Spot, how: Partial<Written>, backed: boolean) => {
    const style = styled(how);
    const room = roomOf(line, { x, y, align }, style);
    words.push(room);
    if (backed) text += tag('rect', { x: room.left - 4, y: room.top - 3, width: room.right - room.left + 8, height: room.bottom - room.top + 6, rx: 4, fill: ink.page }); // prettier-ignore
    text += writing([line], x, y, { ...style, align });
  };
  const freeSpot: ChartSheet['freeSpot'] = (line, spots, room, how = {}) => {
    const taken = [...words, ...kept];
    for (const spot of spots) {
      const box = roomOf(line, spot, styled(how));
      const inside = box.left >= room.left && box.right <= room.right && box.top >= room.top && box.bottom <= room.bottom; // prettier-ignore
      if (inside && !taken.some((other) => touch(box, other))) return { spot, box };
    }
    return undefined;
  };
  return {
    ink,
    draw: (more) => void (marks += more),
    write: (line, spot, how = {}) => write(line, spot, how, false),
    paragraph(whole, y, how = {}) {
      const style = styled(how);
      const lines = wrapped(plainWords(whole), CHART_WIDTH - SIDE * 2, style.size, style.weight);
      lines.forEach((line, i) => write(line, { x: SIDE, y: y + i * lineHeight(style.size) }, how, false));
      return y + lines.length * lineHeight(style.size);
    },
    freeSpot,
    writeIfFree(line, spots, room, how = {}) {
      const free = freeSpot(line, spots, room, how);
      if (free) write(line, free.spot, how, true);
      return free !== undefined;
    },
    keepFree: (room) => void kept.push(room),
    plate: (height, said) => ({
      svg: framed(CHART_WIDTH, Math.round(height), theme, marks + text),
      width: CHART_WIDTH,
      height: Math.round(height),
      said: said.filter(Boolean),
    }),
  };
}

/** The room a line takes; letters reach about three quarters of the size above the line and a quarter below. */
function roomOf(line: string, { x, y, align = 'start' }: Spot, { size, weight }: Written): Room {
  const width = widthOf(line, size, weight);
  const left = align === 'middle' ? x - width / 2 : align === 'end' ? x - width : x;
  return { left, right: left + width, top: y - size * 0.78, bottom: y + size * 0.24 };
}

const AIR = 6;
/** Whether two lines would run into each other. */
export const touch = (one: Room, other: Room) =>
  one.left < other.right + AIR && other.left < one.right + AIR && one.top < other.bottom && other.top < one.bottom;
