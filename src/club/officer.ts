import type { Request } from '../discord/message-view.ts';

/** Whether somebody may change how the club has set the bot up: whoever may manage the server. */
export const isOfficer = ({ standing }: Pick<Request, 'standing'>): boolean => standing?.managesServer ?? false;
