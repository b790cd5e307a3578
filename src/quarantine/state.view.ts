// How a quarantine stands, in the places where it is asked.
export { boardView } from './board.view.ts';
export { planView } from './plan.view.ts';
export { headOf, moment } from './state-words.ts';
export { todayView } from './today.view.ts';
