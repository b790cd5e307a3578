import { z } from 'zod';
import { nothing, ok, readBody, route } from './exchange.ts';
import type { Route, RouteDeps } from './exchange.ts';
import { BOT_NAME } from './members.ts';
import { channelPayload, guildPayload, memberPayload, userPayload } from './payloads.ts';
import { Refusal } from './refusal.ts';
import type { WorldMember } from './world-shapes.ts';

const OpenDirect = z.object({ recipient_id: z.string() });

/** Who the bot is, who the others are, and where the gateway is. */
export function botRoutes({ world, contract, gatewayUrl }: RouteDeps): Route[] {
  const bot = world.members.bot;
  const application = () => ({
    id: world.applicationId,
    name: BOT_NAME,
    icon: null,
    description: '',
    summary: '',
    bot_public: false,
    bot_require_code_grant: false,
    verify_key: '0'.repeat(64),
    flags: 0,
    bot: userPayload(bot),
    owner: { id: world.guild.ownerId, username: 'founder', discriminator: '0', avatar: null, global_name: 'Founder' },
    team: null,
    approximate_guild_count: 1,
  });
  const memberAt = (id = ''): WorldMember => {
    const member = id === '@me' ? bot : world.members.get(id);
    if (!member) throw new Refusal(404, 10013, 'Unknown User');
    return member;
  };
  const ownGuild = (id = '') => {
    if (id !== world.guild.id) throw new Refusal(404, 10004, 'Unknown Guild');
  };

  return [
    route('GET', '/gateway', () => ok({ url: gatewayUrl() }), { auth: false }),
    route('GET', '/gateway/bot', () =>
      ok({
        url: gatewayUrl(),
        shards: 1,
        session_start_limit: { total: 1000, remaining: 1000, reset_after: 14_400_000, max_concurrency: 1 },
      }),
    ),
    route('GET', '/applications/@me', () => ok(application())),
    route('GET', '/oauth2/applications/@me', () => ok(application())),
    route('POST', '/users/@me/channels', async ({ body }) => {
      await contract.check('direct-channel', body);
      const { recipient_id } = readBody(OpenDirect, body);
      const member = world.members.get(recipient_id);
      if (!member || member.bot) throw new Refusal(400, 50033, 'Invalid Recipient(s)');
      return ok(channelPayload(world, world.channels.directWith(member)));
    }),
    route('DELETE', '/users/@me/guilds/:g', ({ params }) => {
      ownGuild(params[0]);
      return nothing;
    }),
    route('GET', '/users/:id', ({ params }) => ok(userPayload(memberAt(params[0])))),
    route('GET', '/guilds/:g', ({ params }) => {
      ownGuild(params[0]);
      return ok({ ...guildPayload(world), channels: undefined, threads: undefined, members: undefined });
    }),
    route('GET', '/guilds/:g/members/:u', ({ params }) => {
      ownGuild(params[0]);
      const member = memberAt(params[1]);
      return ok({ ...memberPayload(member), user: userPayload(member) });
    }),
  ];
}
