/** What a member did to a tank, so that undo can say what it takes back. */
export const CHANGES = [
  'added',
  'edited',
  'removed',
  'reading-noted',
  'reading-corrected',
  'dose-noted',
  'water-change-noted',
  'entry-deleted',
] as const;
export type ChangeKind = (typeof CHANGES)[number];

export type TankChange = { id: number; guildId: string; memberId: string; tankId: number; what: ChangeKind; at: Date };

/** So many changes of one tank can be taken back, one after the other. */
export const MOST_UNDONE = 50;
/** A tank that was removed can be brought back for so long; then it is forgotten with all that was noted. */
export const REMOVED_FOR_MS = 30 * 86_400_000;
