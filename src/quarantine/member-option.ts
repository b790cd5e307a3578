import { z } from 'zod';
import { md, type GivenMember, type MessageView } from '../discord/message-view.ts';
import { MOST_HELPERS } from './quarantine.ts';
import { saysView } from './start.view.ts';

/** A member of the server as an option names one. */
export const Member = z.custom<GivenMember>(
  (value) => typeof value === 'object' && value !== null && 'id' in value && 'isBot' in value,
);

/** Why somebody cannot be a helper; null when they can. */
export function helperTrouble(helper: GivenMember, keeper: string, helpers: readonly string[]): MessageView | null {
  if (helper.isBot) return saysView('Not a bot', md`**${helper.name}** is a bot and looks at no fish. Name a member.`);
  if (helper.id === keeper)
    return saysView('You are their keeper', md`You may do everything already. Name somebody else as **helper:**.`);
  if (!helpers.includes(helper.id) && helpers.length >= MOST_HELPERS)
    return saysView(
      'That is a lot of hands',
      md`${MOST_HELPERS} helpers at most. **helper-gone:** takes one off first.`,
    );
  return null;
}
