// Colours of charts. Every one stands beside a shape, a dash or a word, so that no meaning hangs on colour alone.
import { PAPERS, type Paper, type Theme } from '../ink.ts';

export type ChartInk = Pick<Paper, 'page' | 'words' | 'quiet' | 'rule'> & {
  /** The course of a value. */
  line: string;
  /** What is added. */
  dose: string;
  /** The ground and the edges of what is aimed at. */
  band: string;
  bandEdge: string;
  /** The strokes over what is for the experienced. */
  caution: string;
};

/** Unlike the cards of animals, charts are dark throughout in the dark variant: nothing in them has a colour of its own. */
export const CHART_INKS: Record<Theme, ChartInk> = {
  light: { ...plain(PAPERS.light), line: '#0b5cad', dose: '#9a4a12', band: '#dcebd9', bandEdge: '#3f7a46', caution: '#a87848' }, // prettier-ignore
  dark: { ...plain(PAPERS.dark), line: '#7fbaf5', dose: '#f2b277', band: '#2c4535', bandEdge: '#8fcf9a', caution: '#9a7650' }, // prettier-ignore
};

function plain({ page, words, quiet, rule }: Paper) {
  return { page, words, quiet, rule };
}
