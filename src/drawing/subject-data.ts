// What is set down for an animal beyond its traits.
import type { ColourWord } from './ink.ts';
import type { Outline } from './outline.ts';
import type { Setting } from './settings.ts';

export type SubjectData = {
  outline: Outline;
  /** The colours to draw it in, where the first ones met are not the telling ones. */
  colours?: readonly ColourWord[];
  setting?: Setting;
};

/** Critter id → what is set down for it. */
export type SubjectTable = Readonly<Record<string, SubjectData>>;
