import type { Request } from '../discord/message-view.ts';

/** Whether somebody may settle cases: a role named "curator", or the permission to manage messages. */
export function isCurator({ standing }: Request): boolean {
  if (!standing) return false;
  return standing.managesMessages || standing.roles.some((role) => role.trim().toLowerCase() === 'curator');
}
