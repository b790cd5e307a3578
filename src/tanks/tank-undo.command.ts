import type { Answer, Request } from '../discord/message-view.ts';
import type { TankDeps } from './asked-tank.command.ts';
import { laterChangesView, nothingToUndoView, undoneView } from './log.view.ts';
import { nameTakenView, needsAClubView, tooManyTanksView } from './tank-trouble.view.ts';
import type { Tanks } from './tank-keeping.store.ts';

/** Takes a change back, or says why not. */
export function undoAnswer(
  { tanks }: TankDeps,
  { guildId, memberId }: Request,
  which: Parameters<Tanks['undo']>[2],
  isButton: boolean,
): Answer {
  if (guildId === null) return needsAClubView();
  const undone = tanks.undo(guildId, memberId, which);
  switch (undone.kind) {
    case 'undone':
      return undoneView(undone.change.what, undone.tankName, isButton);
    case 'nothing':
      return nothingToUndoView();
    case 'later-changes':
      return laterChangesView();
    case 'name-taken':
      return nameTakenView(undone.name);
    case 'too-many-tanks':
      return tooManyTanksView();
  }
}
