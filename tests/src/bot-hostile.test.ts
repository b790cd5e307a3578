import { ComponentType, MessageFlags, type APIMessageTopLevelComponent } from 'discord.js';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { createAbilities } from '../../src/commands.ts';
import type { Answer, Request } from '../../src/discord/message-view.ts';
import { problemView } from '../../src/discord/problem.view.ts';
import { render } from '../../src/discord/render.ts';
import { ERROR, knowledge, named, openClub } from '../set-up-club.ts';
import { hostileText, SEED } from '../set-up-hostile.ts';

const OPTION = 100;
const MESSAGE = 2_000;

type Parts = { texts: string[]; buttons: { label: string; id: string }[]; count: number };

function partsOf(components: readonly APIMessageTopLevelComponent[]): Parts {
  const parts: Parts = { texts: [], buttons: [], count: 0 };
  const walk = (part: object): void => {
    parts.count += 1;
    if ('content' in part) parts.texts.push(String(part.content));
    if ('custom_id' in part && 'label' in part)
      parts.buttons.push({ label: String(part.label), id: String(part.custom_id) });
    if ('components' in part && Array.isArray(part.components)) part.components.forEach(walk);
  };
  components.forEach(walk);
  return parts;
}

/** What makes Discord refuse a message, or makes it do what nobody meant; empty when all is well. */
function problemsOf(view: Answer): string[] {
  // A form or a fetch needs a case, and nothing typed here names one.
  if ('kind' in view) return ['an answer that is no message'];
  const { components, flags, allowedMentions } = render(view);
  const { texts, buttons, count } = partsOf(components);
  const all = texts.join('\n');
  const checks: [string, boolean][] = [
    ['nothing is said', texts.length === 0 || texts.some((text) => text.trim() === '')],
    ['a text begins or ends with nothing', texts.some((text) => text !== text.trim())],
    ['more than 4000 characters', texts.reduce((sum, text) => sum + text.length, 0) > 4_000],
    ['more than 40 components', count > 40],
    ['no container', components.some(({ type }) => type !== ComponentType.Container)],
    ['the flags are wrong', (flags & MessageFlags.IsComponentsV2) === 0],
    ['the audience is wrong', ((flags & MessageFlags.Ephemeral) !== 0) !== (view.audience === 'member')],
    ['somebody could be pinged', allowedMentions.parse.length > 0 || allowedMentions.repliedUser],
    ['a mention of all is alive', /@(everyone|here)/.test(all)],
    ['a mention, command, time or emoji is alive', /(?<!\\)<(?:@|#|\/|t:|a?:)/.test(all)],
    ['a link is alive', /(?<!\\)\]\(|https?:\/\//.test(all)],
    ['a lone surrogate', !texts.every((text) => text.isWellFormed())],
    ['the reading direction turns', /[\u202a-\u202e\u2066-\u2069]/.test(all)],
    ['two buttons with one id', new Set(buttons.map(({ id }) => id)).size !== buttons.length],
    ['a button without a label or with a long one', buttons.some(({ label }) => label === '' || label.length > 80)],
    ['a long custom id', buttons.some(({ id }) => id.length > 100)],
  ];
  return checks.filter(([, wrong]) => wrong).map(([what]) => what);
}

test('10,000 hostile inputs get an answer that Discord takes and that does nothing by itself', async () => {
  const abilities = createAbilities(knowledge());
  const acts = [...abilities.buttons.values()];
  const asked = (memberName: string): Request => ({
    memberId: '100000000000000001',
    memberName,
    guildId: null,
    channelId: null,
    locale: 'en-GB',
    now: new Date(0),
  });
  const answers = async (typed: string, other: string, at: number): Promise<Answer[]> => {
    const request = asked(other.slice(0, 32).trim() || 'Ana');
    const viaCommand = async (name: string, options: Record<string, unknown>) => {
      const parsed = abilities.commands.get(name)!.parse(options);
      return parsed.ok ? parsed.run(request) : problemView(parsed.error);
    };
    const option = typed.slice(0, OPTION);
    const button = async (act: string, args: string[]) => abilities.buttons.get(act)!.run(args, request);
    switch (at % 3) {
      case 0:
        return [
          await viaCommand('critter name', { critter: option }),
          await viaCommand('critter name', { critter: typed }),
        ];
      case 1: {
        const second = at % 2 ? 'aiptasia' : other.slice(0, OPTION);
        const pressed = await button(acts[at % acts.length]!.act, option.split(':'));
        return [await viaCommand('critter compare', { critter: option, with: second }), pressed];
      }
      default: {
        const mention = abilities.mention(typed.slice(0, MESSAGE), request);
        return [await button('show-card', ['aiptasia']), ...(mention ? [mention] : [])];
      }
    }
  };
  await fc.assert(
    fc.asyncProperty(hostileText(), hostileText(), fc.nat(1_000), async (typed, other, at) => {
      const views = await answers(typed, other, at);
      const suggest = abilities.commands.get('critter name')!.suggest!;
      const choices = at % 3 === 2 ? suggest('critter', typed, asked('')) : [];
      expect(views.flatMap(problemsOf)).toEqual([]);
      expect(choices.length).toBeLessThanOrEqual(25);
      expect(choices.every(({ name, value }) => name.length <= 100 && value.length <= 100)).toBe(true);
    }),
    { numRuns: 10_000, seed: SEED },
  );
}, 120_000);

test('150 of them through the room: each is answered, nobody is pinged, nothing is refused', async () => {
  const { room, lines } = await openClub({ settleMs: 1 });
  const inputs = fc.sample(hostileText(), { numRuns: 150, seed: SEED });
  const ana = room.actor('Ana');
  room.actor('Ben');
  const ben = `<@${room.world.members.named('Ben')!.id}>`;
  for (const [at, input] of inputs.entries()) {
    const option = `${at % 3 === 0 ? ben : ''}${input}`.slice(0, OPTION);
    const typing = await ana.autocomplete('critter name', named(option));
    expect(typing.error).toBeUndefined();
    expect(typing.choices!.length).toBeLessThanOrEqual(25);
    const asked = await ana.slash('critter name', named(option));
    expect(asked.error).toBeUndefined();
    expect(asked.replies).toHaveLength(1);
    const said = await ana.say(`@bot ${ben} ${input}`.slice(0, MESSAGE));
    expect(said.error).toBeUndefined();
    expect(said.replies).toHaveLength(1);
  }
  expect(room.world.pings).toEqual([]);
  expect(room.world.messages.all().some(({ mentionEveryone }) => mentionEveryone)).toBe(false);
  expect(lines.filter(({ level }) => level >= ERROR)).toEqual([]);
}, 30_000);
