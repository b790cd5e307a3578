// What answers draw with, in one place, so that it can be loaded when the first picture is wanted.
export { optionSheet } from './option-sheet.ts';
export { altTextOf } from './page.ts';
export { PLATE_WIDTH, pairPlate } from './pair-plate.ts';
export { subjectOf } from './subject.ts';
export { BODY_FORM_SUBJECTS, SHELL_SHAPE_SUBJECTS } from './trait-options.ts';
