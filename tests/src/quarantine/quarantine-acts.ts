import { createAbilities } from '../../../src/commands.ts';
import { openTemporaryDatabase } from '../../../src/database/open.ts';
import type { Answer, FormView, MessageView, Request } from '../../../src/discord/message-view.ts';
import { quarantineStore } from '../../../src/quarantine/quarantine.store.ts';
import { base } from '../knowledge/real-base.ts';

export const NOW = new Date('2026-11-25T12:00:00Z');
export const DAY_MS = 86_400_000;

/** A club in memory, with the acts as plain functions and the real database. */
export function opened() {
  const { db } = openTemporaryDatabase();
  const abilities = createAbilities(base, { db });
  const store = quarantineStore(db);
  const request = (memberId: string, given: Partial<Request> = {}): Request => ({
    ...{ memberId, memberName: memberId, guildId: 'club', channelId: 'hall', locale: 'en-GB', now: NOW, ...given },
  });
  return {
    store,
    send(memberId: string, verb: string, options: Record<string, unknown> = {}, given: Partial<Request> = {}): Answer {
      const parsed = abilities.commands.get(`quarantine ${verb}`)!.parse(options);
      if (!parsed.ok) throw parsed.error;
      return parsed.run(request(memberId, given));
    },
    press: (memberId: string, act: string, args: string[], given: Partial<Request> = {}, chosen?: string[]): Answer =>
      abilities.buttons.get(act)!.run(args, request(memberId, given), chosen),
    fill: (
      memberId: string,
      act: string,
      args: string[],
      filled: Record<string, string>,
      given: Partial<Request> = {},
    ) => abilities.forms.get(act)!.run(args, filled, request(memberId, given), {}),
  };
}

export const said = (answer: Answer): string => {
  const { blocks } = answer as MessageView;
  return blocks.map((block) => (block.kind === 'text' ? block.text.markdown : '')).join('\n');
};
export const buttonsOf = (answer: Answer) =>
  (answer as MessageView).blocks.flatMap((block) => (block.kind === 'buttons' ? block.buttons : []));
export const fieldsOf = (answer: Answer) => (answer as FormView).fields.map(({ name }) => name);
export const helper = (id: string, isBot = false) => ({ id, name: id, isBot });
export const ZONE = { zone: 'Europe/Lisbon', time: '19:00' };
