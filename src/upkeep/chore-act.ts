/** What a member can do with a chore. */
export const ACTS = ['added', 'done', 'skipped', 'later', 'edited', 'removed'] as const;
export type ActKind = (typeof ACTS)[number];
/** One thing that a member did with a chore; `dueDate` and `doneDate` are local dates. */
export type ChoreAct = {
  id: number;
  choreId: number;
  what: ActKind;
  dueDate: string;
  doneDate: string | null;
  at: Date;
  stateBefore: string | null;
};
